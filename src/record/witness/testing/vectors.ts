/**
 * A small log made with other tools (openssl 3, sha256sum) by the forms of RFC 9162 and of the C2SP documents signed-note,
 * tlog-checkpoint and tlog-cosignature. Keys are SHA-256 of "witness vector log" and "witness vector office" as Ed25519
 * seeds; invented for tests.
 */
export const VECTORS = {
  leaves: [
    '{"i":0,"what":"opened"}',
    '{"i":1,"what":"head 0"}',
    '{"i":2,"what":"head 1"}',
    '{"i":3,"what":"ended"}',
    '{"i":4,"what":"sealed"}',
    '{"i":5,"what":"added"}',
    '{"i":6,"what":"opened"}',
  ],
  leafHashes: [
    '73d86e0a058b1c81c54513d78738b8bb00e65f664c8faf7c2c8f75a9a7d9636a',
    'c910138c880c832242be7198dc8f60bb072a867c0ad0b9fb22d8f6fcb8529c0d',
    '65f17cfb61750e79548a6c8169f35421ca621c09a4eaf147c20be0fd896148ac',
    '48516e9ac7c1044f23890b8cad685b6c439574638499bb323a31f2dc1dfaaaca',
    '03f2e84c508907036bd4e083cbc7dba818e762507496a65ed96959f31a5eeada',
    '2a9f4afffcbd9901cc09438783ab67462c7a56522dbf8f491ea785cd0d0ee330',
    '3e125ce21f43db725610bb561039d700ba4e7c32353a32ce2aeb4d658944dd9b',
  ],
  roots: [
    'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
    '73d86e0a058b1c81c54513d78738b8bb00e65f664c8faf7c2c8f75a9a7d9636a',
    '231ae255aab765cda89e9502e4ad076523bc296241ddd13bfba9ffd22b3ad0e0',
    '2543e3dae0e273e8ca60cb4cf6f231b9e4a1298e486a6ec37569f515ed4b76c8',
    '4aa4380cbf87f7773b7a8e54b8d375011f7a7b1a817ee04647485e2e7c061b4e',
    'a48131b089a2196c474fdd7610574300ba2f6bdc8387cd6b465aecfd18b1a0fa',
    '8215979d75a0f712b4b07c34188d461a71be2fdb5fd5fc961be797c240d89676',
    'f12fc1456317a5433805275cdc3903ea7f6a86cf33305b6e30477edd6c5f5963',
  ],
  inclusion: {
    leaf: 4,
    size: 7,
    path: [
      '2a9f4afffcbd9901cc09438783ab67462c7a56522dbf8f491ea785cd0d0ee330',
      '3e125ce21f43db725610bb561039d700ba4e7c32353a32ce2aeb4d658944dd9b',
      '4aa4380cbf87f7773b7a8e54b8d375011f7a7b1a817ee04647485e2e7c061b4e',
    ],
  },
  consistency: {
    from: 4,
    to: 7,
    proof: ['a476ddf5bdbc7ebb0e9ae6bd7e8538c56fc3d757f5e12eda95e9efd971a702b3'],
  },
  checkpoint4:
    'log.steadybar.invalid/tablet-1\n4\nSqQ4DL+H93c7eo5UuNN1AR96exqBfuBGR0heLnwGG04=\n\n— log.steadybar.invalid/tablet-1 ORhzicIMKDQxSsaTJLoyJ5QcWYVB+P24TcZJk/gkoUI/BIGGR3RO1BtwPGMIGudzdkpI4o3IBMGXR+2UrbBdklyFuwI=\n',
  checkpoint7:
    'log.steadybar.invalid/tablet-1\n7\n8S/BRWMXpUM4BSdc3DkD6n9qhs8zMFtuMEd+3WxfWWM=\n\n— log.steadybar.invalid/tablet-1 ORhziZxJdgvW3TQ8OqMv8hoq3d3X6id+qirouoa0sPOgIOwE5j2J6AAdBBymnmgn5C1i+0g5i1h6IfAwtek9TlikXg4=\n— log.steadybar.invalid/office-1 n1NSVQAAAABp3fQAF+tvoBDI4M3QgOYmeBvYVSgdIHKh9uAEN41C5n/DoW3KPnXqGtk+CvvpP5Wb9fgUCqUHlY5PXCh1S51Y+68aDw==\n',
  logPem:
    '-----BEGIN PUBLIC KEY-----\nMCowBQYDK2VwAyEAJJFQCa27qWb1C9LJbea6BAIY34w1CXgiPdvJ0qOFZEM=\n-----END PUBLIC KEY-----\n',
  officePem:
    '-----BEGIN PUBLIC KEY-----\nMCowBQYDK2VwAyEAZw+1nMLHyores0pac9Pyb6i5dyPZHhpEgJnoA9vOPCw=\n-----END PUBLIC KEY-----\n',
} as const;
