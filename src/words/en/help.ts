/** Where a crew would stop and ask: what is this, what do I do. Two to four sentences each, read at the place. */
export const HELP = {
  supply:
    'Before the packer is on the hose, the supply is let in against a closed end. Where it comes to rest is what a valve that is left open would bring: it must stand under the ceiling. If it goes on rising by itself, the regulator lets air through (creep): mend it or take another. Then empty the hose by the vent before anything is coupled.',
  zero: 'With the coupling seen open there is no pressure in the line: what the sensor reads then is its own error, and is taken off from then on. Never zero a line that may be under pressure: the error would hide in every reading. If the zero is refused as too far off, the line is not open or the sensor is damaged.',
  gauge:
    'The dial gauge is the second opinion on the one sensor: with the valve shut both must show the same. Look at it square on and type what it shows, not what the screen shows. If they differ, go by the higher one, and find out which is wrong before more air goes in.',
  probe:
    'Hold probe and thermometer together in the warm hand until both stand still. A probe that does not follow is shorted, reversed or on the wrong channel, and would make a cold sleeve look warm. Do it before the resin is mixed: until then the probe earns no cure time above the ground’s temperature.',
  sample:
    'A little of the same mix is kept as cold as the pipe: let down on a string, not in the van, and nobody enters for it. It is felt before let-down: not hard means wait, whatever the count says. A sample that was kept warm is hard hours too early and proves nothing.',
  cup: 'A cup of the same mix with a probe in it shows whether this batch reacts as it should, since it warms sooner than the thin sleeve. Weigh what goes in: a larger mass is hotter and quicker. It speaks of the batch, not of the sleeve: the witness sample is felt all the same.',
  working:
    'The working pressure is what the packer is held at. It lies over the hold floor, under which the sleeve may come off the wall, and under the ceiling, which is the rated pressure less the doubt of the reading. A shut line rises as the resin warms, without more air (lift): the plan’s proposal leaves room for it.',
  tap: 'The tap is where the sensor’s own line leaves the air line. Follow the hose with the hand from sensor to packer: with a check valve, a self-sealing coupling or a shut tap between, the sensor reads the supply and not the packer. Then over-pressure alone is warned of, and hold and leak are not judged.',
  airTest:
    'The finished repair is closed by a plug at each end, brought to the test pressure and left to settle; then the drop is timed. The order leads through it, and the verdict counts the sensor’s uncertainty. A plug or a hose may leak too: soap them before the repair is blamed. Nobody near the plugs while there is air between them.',
  marks:
    'The ladder is the pressure from zero at its foot to over rated at its top. Rated is the packer’s hard stop, and the ceiling under it is where the alarm comes. The solid plate is where the stage is to end, and under the hold floor the sleeve may come off. Where cure heat will take a shut line is shown too.',
  seal: 'Sealing signs the record with this computer’s own key: whoever has the file sees whether anything in it was changed since. It does not prove where the sensor sat, nor that the clock was right. A second computer that countersigns the witness log remembers its end: a run can then not be left out or made again unseen.',
  registers:
    'The map tells in which registers of the device pressure and temperatures stand, and how their numbers become bar and °C. It is all in the maker’s register list: address, kind, order of the words, scale. Test it before a job: with the coupling open it must read zero, and with air in the line what the dial gauge shows.',
  columns:
    'Each line of the device is one reading, its values in columns counted from 1 on the left, or by their names. Say which is the pressure and which are temperatures, each in its unit. Test it before a job: with the coupling open it must read zero, and with air in the line what the dial gauge shows.',
};
