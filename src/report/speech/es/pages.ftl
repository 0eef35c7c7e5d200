pages-counter = Mostrador de permisos
pages-skip = Ir a la página
pages-rooms = Salas del mostrador
pages-room-job = Trabajo
pages-room-verdict = Dictamen
pages-room-ways = Opciones lícitas
pages-room-compare = Comparar
pages-room-rules = Normas
pages-room-map = Mapa
pages-feet = pies
pages-metres = metros
pages-cautions = Advertencias
pages-engine = Groundrule { $engine }, normas

# The job.
pages-job-title = ¿Cuál es el trabajo?
pages-place = Lugar
pages-place-ask = ¿En qué ciudad, condado o pueblo está el trabajo? La dirección postal puede estar en otro.
pages-reference = Referencia
pages-reference-ask = Referencia, por ejemplo un número de permiso
pages-dates = Fechas
pages-codes = Códigos
pages-part = { $who }, en { $when }
pages-part-any = Quien lo sepa
pages-unknown = no se sabe
pages-none-of-these = ninguno de estos
pages-none-ticked = Nada marcado significa que no se sabe.
pages-empty-unknown = Vacío significa que no se sabe.
pages-hint-count = Un número entero.
pages-hint-gauge = Un calibre como 6 AWG, 250 kcmil o 16 mm2.
pages-hint-unit = Una cifra en { $unit }, o con otra unidad que mida lo mismo.
pages-hint-list = Cuántos: un número, “2+” si puede haber otros, “none” si no hay ninguno.
pages-hint-date = Año, mes y día; “none” si no hay.
pages-hint-name = “none” si no hay a quién o qué nombrar.
pages-could-change = Podría cambiar:
pages-update = Actualizar
pages-begin = Empezar
pages-whole-verdict = Dictamen con todas las razones
pages-to-verdict = Al dictamen
pages-to-questions = Volver a las preguntas
pages-no-place-yet = Diga dónde está el trabajo y aparecerán las preguntas que importan allí.
pages-open = Abrir un trabajo
pages-open-help = Pegue una hoja de trabajo, o un trabajo en JSON.
pages-open-button = Abrir
pages-open-pasted = el trabajo pegado
pages-open-spot = línea { $line }, columna { $column }
pages-open-several = hay varios trabajos donde se abre uno solo
pages-open-one = pegue el que quiere abrir
pages-open-long = su enlace tendría { $letters } letras, y se aceptan como máximo { $most }
pages-open-divide = envíe el trabajo a /api/verdict, o divídalo en varios
pages-samples = O empiece con un ejemplo:

# What is wrong with a job.
pages-wrong = { $count ->
    [one] Una cosa no se pudo leer
   *[other] { $count } cosas no se pudieron leer
 }
pages-near = Quizá quiso decir
pages-wrong-place-missing = diga dónde está el trabajo
pages-wrong-no-place = ningún lugar se llama así aquí
pages-wrong-places = varios lugares se llaman así
pages-wrong-no-fact = no hay ningún dato con este nombre en este lugar
pages-wrong-twice = se dice más de una vez
pages-wrong-no-entry = la lista no tiene esa entrada: diga primero cuántas tiene
pages-wrong-dates = las fechas se contradicen
pages-wrong-empty = no hay nada escrito
pages-wrong-number = la lista va de 1 a { $most }
pages-wrong-several = es el comienzo de varios
pages-wrong-count = escriba cuántos hay, o “none”
pages-wrong-entries = un enlace abre como máximo { $most } entradas de una lista; envíe un trabajo mayor a /api/verdict
pages-wrong-mend = { $page } con el mismo enlace muestra junto a su campo lo que está mal

# The verdict.
pages-change-job = Cambiar el trabajo
pages-work = El trabajo en orden
pages-job-has = el trabajo tiene
pages-job-unsaid = el trabajo no dice
pages-hangs-on = depende de
pages-why = Por qué
pages-loose = Nada se pide de este trabajo:
pages-silent = Ninguna norma conocida aquí habla de:
pages-against = En contra de lo que se aconseja:
pages-ask = Por averiguar, primero lo que más decide
pages-changes = podría cambiar
pages-office = La autoridad a la que preguntar:
pages-notes = Notas
pages-pending = En camino, y no en vigor
pages-rule-cautions = Advertencias de las normas
pages-memory = Anotado de memoria, consulte el texto mismo:
pages-facts = Los datos del trabajo
pages-facts-caption = Tal como se dieron, se suponen o no se saben; ninguno se inspeccionó
pages-fact = Dato
pages-said = Lo que se dice
pages-how = Cómo se sabe
pages-files = Para guardar y compartir
pages-share = La dirección de esta página lleva todo el trabajo; nada se guarda en otra parte.
pages-file-sheet = Hoja de trabajo
pages-file-json = Trabajo en JSON
pages-file-verdict = Dictamen en JSON
pages-sample-new-house = una casa nueva con tubería corrugada simple
pages-sample-jacket = una casa donde no se conoce la cubierta de la tubería
pages-sample-long-wire = un cable de unión demasiado largo
pages-sample-shop = un taller separado que se alimenta desde la casa

# Comparing.
pages-compare-title = Comparar este trabajo
pages-compare-choose = Elegir lugares y días
pages-compare-places = Lugares
pages-compare-days = Días
pages-compare-days-help = Días separados por comas, como 2018-06-01, 2026-04-20; cada uno vale para todas las fechas que el trabajo no dice. Vacío significa las fechas del trabajo.
pages-compare-button = Comparar
pages-compare-two = marque al menos dos lugares, o escriba al menos dos días
pages-compare-many = se piden { $count } columnas, y se ponen como máximo { $most } una junto a otra
pages-wrong-day = no es un día que exista
pages-file-print = Esta comparación como hoja para imprimir
pages-file-csv = Esta comparación para una hoja de cálculo (CSV)

# Picture, papers, ways.
pages-picture = Dibujado con los datos del trabajo; lo que no se sabe se dibuja como no sabido.
pages-picture-alone = El dibujo solo
pages-papers = Papeles
pages-mend = Lo que lo remediaría:
pages-ways-lead = Cada elección de tubería que el trabajo deja abierta, y lo que pide cada una; lo que cuesta se dice en especie, no en dinero.
pages-ways-too-many = Hay demasiadas opciones para ponerlas todas una junto a otra: diga más del trabajo.
pages-ways-none = El trabajo no deja abierta ninguna elección de tubería.
pages-way-lawful = lícita
pages-way-prohibited = PROHIBIDA
pages-way-requires = Lo que pide
pages-way-open = SIN DECIDIR
pages-way-not-settled = Aún sin decidir
pages-way-question = Pregunta
pages-way-value = Respuesta
pages-way-costs = Lo que cuesta, en especie
pages-way-nothing = No se pide nada más.
pages-way-refers = Lo decide la autoridad:
pages-way-to-know = Aún por saber:
pages-way-to-choose = Aún por elegir:
pages-missing = No existe esa página
