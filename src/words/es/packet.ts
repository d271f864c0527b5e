/** HOW-TO-CHECK.txt in a client's packet: at most 100 columns. */
export const PACKET = {
  /** @param record name of the record file */
  howTo: (record: string, key: string, manifest: string) => `QUÉ HAY EN ESTE PAQUETE

record/${record}
    El registro en sí: curva, eventos, fotografías, certificado, todo firmado junto.
certificate.html
    El certificado, para leerlo o imprimirlo. Se abre en cualquier navegador, sin red.
photos
    Las fotografías, como están en el registro.

Solo el fichero de registro demuestra algo. El certificado y las fotografías de al lado son copias
para leer; quien dude, que tome los que están en el fichero de registro.

CÓMO COMPROBARLO

1. Con el programa, en un navegador: Archivo, Verificar un fichero, elegir este paquete o el
   fichero de registro que contiene. No se envía nada.
2. O a mano: desempaquetar el fichero de registro (es un zip) y seguir su CHECK.txt. Hacen falta
   openssl, sha256sum y grep, y ningún programa nuestro.

De un modo u otro, pedir a la empresa por otro camino, en papel o por teléfono, la huella de su
clave. Tiene que ser esta, o nada de lo de aquí vale:

    ${key}

Huella de este registro, como la tiene su certificado:

    ${manifest}
`,
};
