export const PAGE = {
  name: 'Steadybar',
  description: 'Vigila la presión del packer y el curado en reparaciones de tuberías',
  noScript: 'Steadybar necesita JavaScript. Vigilar el manómetro.',
  guard: {
    title: 'Steadybar no ha podido arrancar',
    nothing: 'No se vigila nada y no puede sonar ninguna alarma. Vigilar el manómetro y mantenerse lejos.',
    todo: 'Recargar esta página. Si sigue igual, cerrar todas las ventanas de Steadybar y abrirlo otra vez, actualizar el navegador o usar otro. Las sesiones y los documentos guardados siguen en este navegador: no borrar sus datos.',
    reload: 'Recargar esta página',
    detail: 'Lo que dice el navegador:',
    late: 'nada; el programa no llegó a tiempo.',
    missing: 'no se pudo obtener una parte del programa:',
  },
};
