import type { CheckWords } from '../../record/check-text.ts';

/** CHECK.txt: at most 100 columns, lines of a numbered paragraph set in by three. */
export const CHECK_TEXT: CheckWords = {
  title: 'COMMENT CONTRÔLER CET ENREGISTREMENT À LA MAIN',
  intro: (runId) => `Ce fichier contient l’enregistrement d’une session : ${runId}
Il ne faut qu’openssl (3.0 ou plus), sha256sum et grep. Décompresser le fichier, puis exécuter les
commandes ci-dessous dans le dossier qui contient manifest.json.`,
  practice: `EXERCICE. Ceci est un enregistrement d’exercice : il vient du simulateur et n’est pas celui d’un
chantier. Les commandes ci-dessous montrent de lui que personne ne l’a changé.`,
  manifest: 'Le manifeste est-il tel que signé ? La réponse doit être : Signature Verified Successfully',
  key: `À qui est la clé ? Demander à l’entreprise qui a fait l’enregistrement l’empreinte de sa clé,
   par une autre voie que celle de ce fichier. Ceci doit imprimer la même, sinon rien d’autre ne
   compte :`,
  names: 'Cet enregistrement nomme la clé',
  pages: 'Les pages du tracé sont-elles celles qui ont été signées ? Ceci doit imprimer 1 :',
  files: `Les autres fichiers sont-ils ceux qui ont été faits avec lui ? Les deux doivent réussir ; si
   SHA256SUMS manque, seul un programme qui les refait à partir de pages.bin peut les contrôler :`,
  others: `Y a-t-il un fichier qui n’en fait pas partie ? Ceci ne doit rien imprimer ; si SHA256SUMS
   manque, seuls les fichiers des points 1 à 3 sont connus comme en faisant partie :`,
  additions: `Chaque ajout fait après le scellement est signé à part, par une clé à lui : mettre son numéro
   à la place de 0001. La deuxième commande imprime l’empreinte de cette clé ; demander à qui
   elle est comme au point 2 : un ajout par une clé dont personne ne répond ne dit rien :`,
  additionNames: `Chacune doit imprimer 1 : le texte nomme cette clé, cet enregistrement, et ce qu’il suit. Dans
   la troisième, à partir du numéro 0002, mettre l’ajout précédent, additions/0001.json, à la
   place de manifest.json, pour qu’aucun ne manque ni ne change de place. La dernière ne doit
   rien imprimer :`,
  witness: `Que dit de lui le journal de contreseing de l’ordinateur, et qui a vu ce journal ? La première
   ligne ne doit rien imprimer ; enregistrer les autres comme fichier ailleurs, à exécuter ici
   avec sh (xxd, base64, sed, date) :`,
  witnessKeys: `Il doit dire "Signature Verified Successfully" pour chaque jalon et chaque contresignataire, et
   aucune de ses lignes ne doit être en capitales. Dans les feuilles, "at" est une heure de l’horloge
   de l’ordinateur en ms depuis 1970. Ce qui compte est l’heure d’un contresignataire : demander à
   qui est sa clé par son empreinte, et combien il y en a. La session est d’après seen.txt, que nomme
   sa première page ; after.txt contient l’enregistrement scellé. Un jalon photographié est comparé
   si son texte est un fichier, nommé après le script. Un stamp.tsr se contrôle avec :
   openssl ts -verify -data witness/stamped.txt -in witness/stamp.tsr -CAfile THEIRS.pem`,
  shows: `Ce que montre un contrôle réussi : que le détenteur de la clé a signé exactement ces octets. Ce
qu’il ne montre pas : où était le capteur, comment l’horloge de l’ordinateur était réglée, quelle
conduite a été réparée.`,
};
