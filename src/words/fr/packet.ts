/** HOW-TO-CHECK.txt in a client's packet: at most 100 columns. */
export const PACKET = {
  /** @param record name of the record file */
  howTo: (record: string, key: string, manifest: string) => `CE QUE CONTIENT CET ENVOI

record/${record}
    L’enregistrement lui-même : tracé, événements, photographies, certificat, signés ensemble.
certificate.html
    Le certificat, à lire ou à imprimer. S’ouvre dans tout navigateur, sans réseau.
photos
    Les photographies, telles qu’elles sont dans l’enregistrement.

Seul le fichier d’enregistrement prouve quelque chose. Le certificat et les photographies à côté
sont des copies pour la lecture ; en cas de doute, prendre ceux du fichier d’enregistrement.

COMMENT LE VÉRIFIER

1. Par le programme, dans un navigateur : Archives, Vérifier un fichier, choisir cet envoi ou le
   fichier d’enregistrement qu’il contient. Rien n’est envoyé.
2. Ou à la main : décompresser le fichier d’enregistrement (c’est un zip) et suivre CHECK.txt qui
   s’y trouve. Il faut openssl, sha256sum et grep, et aucun programme de notre part.

Dans les deux cas, demander à l’entreprise par une autre voie, sur papier ou au téléphone,
l’empreinte de sa clé. Ce doit être celle-ci, sinon rien ne compte ici :

    ${key}

Empreinte de cet enregistrement, telle que la porte son certificat :

    ${manifest}
`,
};
