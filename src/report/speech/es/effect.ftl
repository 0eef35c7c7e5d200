# The head.
effect-kicker = Efecto de un cambio de las normas sobre la unión equipotencial de la tubería de gas
effect-title-files = Qué responde { $after } de otro modo que { $before } en { $place }
effect-title-amendment = Qué cambia { $file } en { $place }
effect-title-places = En qué se distingue { $after } de { $before }
effect-title-days = Qué cambió en { $place } entre el { $first } y el { $second }
effect-title-day = Qué cambió en { $place }
effect-side-without = las normas sin { $file }
effect-side-with = las mismas normas con { $file }
effect-side-day = trabajos cuyas fechas son todas { $day }
effect-own-text = el texto propio de { $instrument }
effect-jobs-places = el mismo trabajo en uno u otro lugar
effect-jobs-place = todo trabajo en { $place }
effect-jobs-dated = { $jobs }, con sus fechas { $days }
effect-jobs-any-date = { $jobs }, sean cuales sean sus fechas
effect-alike-but-notes = las { $all } preguntas tienen la misma respuesta para todo trabajo; cambia lo que se dice junto a las respuestas
effect-alike = las { $all } preguntas tienen la misma respuesta para todo trabajo
effect-undecided = no se sabe que cambie ninguna respuesta; { $open } de { $all } preguntas quedan sin decidir
effect-changed = { $some ->
    [one] { $some } de { $all } preguntas tiene otra respuesta para algunos trabajos
   *[other] { $some } de { $all } preguntas tienen otra respuesta para algunos trabajos
 }

# What is compared.
effect-compared = Lo que se compara
effect-compared-caption = Los dos lados, y los trabajos que se miran
effect-before = Antes
effect-after = Después
effect-jobs = Trabajos
effect-kinds = Clases
effect-kinds-of-job = Clases de trabajo
effect-kinds-none = ninguna de { $all } clases de trabajo recibe otra respuesta
effect-kinds-some = { $some } de { $all } clases de trabajo reciben otra respuesta a alguna pregunta
effect-kinds-uncounted = son demasiadas para contarlas
effect-about-one-in = cerca de 1 de cada { $count }
effect-nearly-all = casi todas
effect-about-in-hundred = cerca de { $count } de cada 100
effect-exact-label = Exacto
effect-alike-label = Iguales
effect-alike-count = { $count ->
    [one] { $count } pregunta tiene la misma respuesta para todo trabajo
   *[other] { $count } preguntas tienen la misma respuesta para todo trabajo
 }
effect-only-before = Solo antes
effect-only-after = Solo después
effect-only-one-side = se pregunta en un solo lado y no se compara con nada: { $titles }
effect-only-before-text = Solo antes, sin compararse con nada: { $titles }
effect-only-after-text = Solo después, sin compararse con nada: { $titles }
effect-undecided-label = Pendiente
effect-not-decided-label = Sin decidir
effect-kind = Los trabajos que ninguna prueba de los dos textos distingue son de una clase. Una clase no dice cuántos trabajos así hay.
effect-exact = Las condiciones que siguen abarcan justo los trabajos de cada cambio, ni más ni menos. Ninguna puede omitirse, y con menos casos no se dice lo mismo, salvo que se indique otra cosa.
effect-not-decided = más clases de trabajo de las que este programa puede distinguir dentro de su límite; sin decidir
effect-caution = El antes y el después se comparan solo por el texto de las normas: no se pregunta si una norma es sabia, lícita o se hace cumplir.

# What becomes of an answer.
effect-conflict = contradicción
effect-stricter = más estricto
effect-looser = menos estricto
effect-otherwise = distinto
effect-leaves = sin resolver
effect-decides = resuelto
effect-reconciles = conciliado
effect-conflict-means = los textos se contradicen donde antes no
effect-stricter-means = se pide más, o se permite menos
effect-looser-means = se pide menos, o se permite más
effect-otherwise-means = ni más ni menos estricto según el orden de la pregunta
effect-leaves-means = el texto deja a la autoridad lo que antes decía él mismo
effect-decides-means = el texto dice él mismo lo que antes dejaba a la autoridad
effect-reconciles-means = los textos ya no se contradicen

# The changes.
effect-glance = De un vistazo
effect-glance-caption = Cuántos cambios tiene cada pregunta, según lo que pasa con su respuesta
effect-question = Pregunta
effect-costs-label = Lo que cuesta una respuesta más estricta
effect-costs = Lo que cuesta una respuesta más estricta: { $costs }.
effect-costs-line = lo que cuesta una respuesta más estricta: { $costs }
effect-costs-not-said = no se dice
effect-answers-caption = Respuestas antes y después, primero las más graves
effect-answers-of-kinds = ; de { $kinds } clases de trabajo que esta respuesta distingue
effect-number = N.º
effect-becomes = Resulta
effect-arrow = pasa a ser
effect-not-counted = sin contar
effect-share-what-follows = { $count } cambios para trabajos que comparten lo que sigue
effect-some-of-kinds = { $some } de { $all }
effect-some-of-kinds-line = { $some } de { $all } clases de trabajo
effect-text-before = Texto antes
effect-text-after = Texto después
effect-before-line = antes: { $texts }
effect-after-line = después: { $texts }
effect-no-text = ningún texto conocido aquí pide nada
effect-and-more = y { $count } más
effect-beside = Además
effect-in-part = lo demás que se pida queda como estaba
effect-note = Nota
effect-not-proven = no se demostró, dentro de los límites de este programa, si con menos casos se dice lo mismo
effect-each-caption = Cada uno de estos cambios, donde además
effect-before-and-after = Antes y después
effect-where-besides = Donde además
effect-each-where-besides = cada uno donde además
effect-where-line = donde { $conditions } ({ $notes })
effect-job = Un trabajo que lo muestra, para pegarlo en un archivo de normas
effect-jobs-shown = Trabajos que los muestran, para pegarlos en un archivo de normas
effect-job-line = un trabajo que lo muestra, para pegarlo en un archivo de normas:
effect-jobs-line = trabajos que los muestran, para pegarlos en un archivo de normas:
effect-in-the-language = Las mismas condiciones en el lenguaje de las normas
effect-every-job = Para todo trabajo
effect-every-job-line = para todo trabajo
effect-where-all = Donde se da todo esto
effect-where = donde
effect-and-one = y uno de estos casos
effect-where-one = Donde se da uno de estos casos
effect-where-one-line = donde se da uno de estos casos
effect-nothing-more = nada más
effect-further = { $count ->
    [one] { $count } cambio más de esta respuesta: { $directions } (--all los muestra)
   *[other] { $count } cambios más de esta respuesta: { $directions } (--all los muestra)
 }
effect-more-like-these = y { $count } más como estos (--all los muestra)
effect-one-of-more = o uno de { $count } más (--all los muestra)
effect-notes-before = Dicho antes y ya no, junto a las respuestas
effect-notes-after = Dicho después y no antes, junto a las respuestas
effect-words = Qué significan las palabras
effect-cautions = Advertencias
effect-printed-from = Las condiciones en el lenguaje de las normas están en el archivo del que se imprimió esto.
effect-written-by = Escrito por Groundrule { $version }. Normas antes:
effect-rules-after = , después:
effect-example-name = { $question }: { $after } en lugar de { $before }
effect-what-is-asked = lo que pide el texto
effect-without = sin { $answer }
effect-role-by = { $text }, { $role } por { $by }

# Conditions.
effect-applied-for = solicitado
effect-permit-issued = permiso expedido
effect-contract-signed = contrato firmado
effect-work-begun = obra iniciada
effect-on-day = el { $day }
effect-from-through = del { $from } al { $through }
effect-on-or-after = el { $day } o después
effect-before-day = antes del { $day }
effect-already-in-force = { $instrument } ya está en vigor (no se sabe desde qué día)
effect-not-yet-in-force = { $instrument } aún no está en vigor (no se sabe desde qué día)
effect-answer-is = { $question }: { $answers }
effect-answer-is-or-left = { $question }: { $answers }, o lo decide la autoridad
effect-within = dentro de { $period } después de { $fact }
effect-not-within = no dentro de { $period } después de { $fact }
effect-anything-but = cualquiera menos { $names }
effect-fact-no = { $fact }: no
effect-among = entre { $fact }: { $names }
effect-not-among = no entre { $fact }: { $names }
effect-the = { $fact }
effect-there-is = hay { $what }
effect-there-is-no = no hay { $what }
effect-at-least-one = al menos un { $what }
effect-none = ningún { $what }
effect-with = { $what } ({ $conditions })
effect-either = o bien { $cases }
effect-days = { $count ->
    [one] { $count } día
   *[other] { $count } días
 }
effect-months = { $count ->
    [one] { $count } mes
   *[other] { $count } meses
 }
effect-years = { $count ->
    [one] { $count } año
   *[other] { $count } años
 }
