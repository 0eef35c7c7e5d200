map-title = Mapa
map-of-editions = Ediciones vigentes sobre { $subject }, { $day }
map-of-answers = { $question }: la respuesta en cada lugar, { $day }
map-show = Mostrar
map-show-editions = Ediciones vigentes sobre
map-show-answers = Respuestas para el trabajo
map-on = Día
map-within = Dentro de
map-everywhere = todos los lugares
map-at = Qué lugar está en
map-at-help = Latitud, longitud en grados, por ejemplo -0.72, 0.60; vacío no busca ningún punto. El día vale por toda fecha que el trabajo no diga.
map-draw = Dibujar el mapa
map-wrong-day = escriba un día que exista como año, mes y día, por ejemplo 2026-04-20
map-wrong-show = no es un tema ni una pregunta de las normas: elija de la lista
map-wrong-point = escriba la latitud y luego la longitud, en grados y con una coma entre ambas, por ejemplo -0.72, 0.60
map-answers-of = A cada lugar se le pregunta por el trabajo que lleva esta página, como si estuviera allí; lo que el trabajo no dice queda sin saberse.
map-found = Latitud { $latitude }, longitud { $longitude }
map-outside = Este punto está fuera de todas las áreas que aquí se conocen.
map-on-border = Este punto está en un límite. Cada uno de estos lugares linda con él; pregunte cuál es.
map-border-outside = Del otro lado no se conoce aquí ninguna área.
map-overlap = Aquí se superponen áreas. Pregunte cuál de estos lugares es.
map-rules-there = normas de allí
map-job-there = un trabajo allí
map-caption = Áreas según las publican los lugares, sin levantamiento propio: cerca de un límite pregunte a la autoridad competente. Cada lugar lleva a su fila de la tabla de abajo.
map-not-settled = sin definir
map-count = { $count ->
    [one] (un lugar)
   *[other] ({ $count } lugares)
 }
map-unnamed = Sin espacio en el mapa para los nombres de:
map-nothing = Ninguno de estos lugares publica un límite que pueda dibujarse.
map-left-out = { $count ->
    [one] Un lugar más está a mayor profundidad; elija dentro de qué está para verlo.
   *[other] { $count } lugares más están a mayor profundidad; elija dentro de qué están para verlos.
 }
map-table = Lo mismo en una tabla
map-table-caption = Todos los lugares del mapa, y los que no pueden dibujarse
map-place = Lugar
map-answer = Respuesta allí
map-edition = Edición vigente
map-by = Según qué textos
map-without = Lugares que no pueden dibujarse: sin límite publicado, o con uno que no sirve
map-law-not-known = no se sabe: ningún trabajo puede ser allí de ese día
map-no-edition = no se sabe de ninguna edición vigente
map-adopted = { $edition } por { $by }
map-adopted-where = { $edition } por { $by } donde { $condition }
map-for-some-jobs = { $edition }, para algunos trabajos
map-by-the-job = { $editions }, según el trabajo
map-job-not-read = el trabajo no puede leerse allí
