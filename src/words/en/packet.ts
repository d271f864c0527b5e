/** HOW-TO-CHECK.txt in a client's packet: at most 100 columns. */
export const PACKET = {
  /** @param record name of the record file */
  howTo: (record: string, key: string, manifest: string) => `WHAT IS IN THIS PACKET

record/${record}
    The record itself: trace, events, photographs, certificate, all signed together.
certificate.html
    The certificate, to be read or printed. Opens in any browser, without a network.
photos
    The photographs, as they are in the record.

Only the record file proves anything. The certificate and the photographs beside it are copies for
reading; whoever has doubts takes those in the record file.

HOW TO CHECK IT

1. By the program, in a browser: Archive, Verify a file, choose this packet or the record file
   in it. Nothing is sent.
2. Or by hand: unpack the record file (it is a zip) and follow CHECK.txt in it. That needs openssl,
   sha256sum and grep, and no program of ours.

Either way ask the firm by another way, on paper or by telephone, for the fingerprint of its key.
It must be this one, or nothing here counts:

    ${key}

Fingerprint of this record, as its certificate has it:

    ${manifest}
`,
};
