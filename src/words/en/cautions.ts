import type { ShownCaution } from '../said/cautions-at.ts';

export { CAUTIONS_AT } from '../said/cautions-at.ts';

/** Cautions shown where they matter: at the job sheet, before air goes in, at let-down, on the about page. */

export const CAUTION: Record<ShownCaution, string> = {
  'not-a-safety-device':
    'This program watches and warns. It is no safety device and no replacement for a relief valve.',
  'stored-energy':
    'An inflated packer stores energy: a burst can kill. Keep out of the line of the pipe and off the opening. Never inflate a packer outside a pipe or restraint beyond what its maker allows. Use a regulator, and a relief valve set at or under the rated pressure.',
  'big-packer':
    'Big packers at low pressure are not safer: stored energy and end force grow with volume and area.',
  unrestrained:
    'Over a void, a missing wall, an open lateral or a protruding end a packer is not restrained: it can burst below its rating.',
  'hose-whip': 'Hoses whip: never open a coupling under pressure.',
  'dammed-water':
    'A blocked pipe dams its water: cellars upstream, a push on the packer, a surge when it is let go.',
  'explosive-gas':
    'Sewer gas and styrene can explode: electronics and wires at the opening need what local rules ask for.',
  'no-warning': 'No warning does not mean safe.',
  'resin-hazard':
    'Isocyanates, styrene, peroxides, epoxy hardeners: follow the safety data sheet, ventilate, wear gloves. Leftover mixed resin in a bucket heats up and can burn.',
  'confined-space': 'Entry into manholes is confined-space work: follow local law and permit.',
  'engineer-design':
    'Design of a repair (thickness, suitability) is for a licensed engineer where the law says so. The planner’s numbers are a check, not a design.',
  empty:
    'A vented hose reads zero long before a big packer is empty, and a kink or check valve can read zero for ever. This program cannot tell that a packer may be pulled.',
  plugs:
    'Air between pipe plugs stores energy: a plug that slips is thrown out and can kill, at a tenth of a bar too. Brace both plugs, nobody in the manhole or in line with the pipe, never above what the test asks for, all air out before a plug is touched. Follow the plugs’ maker and local codes.',
  witness:
    'Before let-down, feel the witness sample that was kept at pipe temperature. A sample from a warm van hardens hours early.',
};
