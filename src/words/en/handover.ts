/** Handing the client what was made. */
export const HANDOVER = {
  make: 'Packet for the client',
  what: 'One file with the record, its certificate, the photos and how to check them. The certificate as PDF: open it and print.',
  making: 'Putting the packet together',
  saved: 'The packet is saved.',
  share: 'Share',
  shareRest: 'Share certificate and photos',
  shareRestText:
    'This browser shares no zip files: the packet with the record file is saved here, send it along.',
  shareTitle: 'Record of a repair',
  shared: 'Handed over.',
  print: 'Print, or save as PDF',
  again: 'Save the packet again',
};
