import type { CheckWords } from '../../record/check-text.ts';

/** CHECK.txt: at most 100 columns, lines of a numbered paragraph set in by three. */
export const CHECK_TEXT: CheckWords = {
  title: 'CÓMO COMPROBAR ESTE REGISTRO A MANO',
  intro: (runId) => `Este fichero contiene el registro de una sesión: ${runId}
Solo hacen falta openssl (3.0 o posterior), sha256sum y grep. Desempaquetar el fichero y ejecutar
las órdenes de abajo en la carpeta que contiene manifest.json.`,
  practice: `PRÁCTICA. Este es un registro de práctica: se grabó en el equipo de práctica, y no es registro de
ningún trabajo. Las órdenes de abajo solo muestran de él que nadie lo cambió.`,
  manifest: '¿Está el manifiesto como se firmó? Tiene que decir: Signature Verified Successfully',
  key: `¿De quién es la clave? Preguntar a la empresa que hizo el registro la huella de su clave, por
   otro camino que el que trajo este fichero. Esto tiene que escribir la misma, o nada más de aquí
   vale:`,
  names: 'Este registro nombra la clave',
  pages: '¿Son las páginas de la curva las que se firmaron? Esto tiene que escribir 1:',
  files: `¿Son los demás ficheros los que se hicieron con él? Las dos órdenes tienen que salir bien; si
   falta SHA256SUMS, solo los puede comprobar un programa que los rehaga a partir de pages.bin:`,
  others: `¿Hay un fichero que no es parte del registro? Esto no tiene que escribir nada; si falta
   SHA256SUMS, solo se sabe que son suyos los ficheros de los pasos 1 a 3:`,
  additions: `Cada añadido hecho después del sellado está firmado por sí mismo, con su propia clave: poner su
   número en lugar de 0001. La segunda orden escribe la huella de esa clave; preguntar de quién es
   como en el paso 2: un añadido con una clave por la que nadie responde no dice nada:`,
  additionNames: `Cada una de estas tiene que escribir 1: el texto nombra esa clave, este registro y aquello a lo
   que sigue. En la tercera, desde el número 0002, poner el añadido anterior, additions/0001.json,
   en lugar de manifest.json, para que no falte ninguno ni cambie de sitio. La última no tiene que
   escribir nada:`,
  witness: `¿Qué dice de él el diario de control del ordenador, y quién ha visto ese diario? La primera línea
   no tiene que escribir nada; guardar las demás como fichero en otro sitio y ejecutarlo aquí con sh
   (xxd, base64, sed, date):`,
  witnessKeys: `Tiene que decir "Signature Verified Successfully" por cada punto de control y cada refrendante, y
   ninguna línea suya puede estar en mayúsculas. En las hojas, "at" es una hora del reloj del
   ordenador en ms desde 1970. Lo que vale es la hora de una refrendante: preguntar de quién es su
   clave por su huella, y cuántas refrendantes hay. La sesión es posterior a seen.txt, que su
   primera página nombra; after.txt contiene el registro sellado. Un punto de control fotografiado
   se compara si su texto es un fichero, nombrado detrás del script. Un stamp.tsr se comprueba con:
   openssl ts -verify -data witness/stamped.txt -in witness/stamp.tsr -CAfile THEIRS.pem`,
  shows: `Lo que muestra una comprobación buena: que quien tiene la clave firmó exactamente estos bytes. Lo
que no muestra: dónde estaba el sensor, qué hora tenía el reloj del ordenador, qué tubo se reparó.`,
};
