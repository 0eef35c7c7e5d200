compare-headline = Un trabajo en { $places ->
        [one] un lugar
       *[other] { $places } lugares
    }{ $days ->
        [one] {""}
       *[other] {" "}en { $days } fechas
    }: { $some ->
        [0] las { $all } preguntas tienen la misma respuesta
        [one] { $some } de { $all } preguntas tiene otra respuesta
       *[other] { $some } de { $all } preguntas tienen otra respuesta
    }
compare-job = Trabajo
compare-code = { $edition } por { $by } ({ $subjects })
compare-code-perhaps = quizás { $edition } por { $by } ({ $subjects })
compare-last-read = normas leídas por última vez: { $day }
compare-not-recorded = sin registro
compare-answered-otherwise = RESPUESTAS DISTINTAS
compare-asked-only-in = Se exige solo para { $columns }
compare-strictest = lo más estricto
compare-banned = no aplica: esta tubería está prohibida (de otro modo { $answer })
compare-idle = para un puente de unión que se instale: { $answer }
compare-no-such-question = este lugar no tiene esa pregunta
compare-may-change = puede cambiar con lo que no se sabe
compare-hangs-on = puede cambiar: depende de { $facts }
compare-not-comparable = Ninguna de estas respuestas es tan estricta como todas las demás
compare-unranked = Sin ordenar: { $columns } ({ $why })
compare-unranked-open = pendiente
compare-unranked-idle = allí no se pide en este trabajo
compare-alike-not-met = No cumplido en ninguna columna
compare-alike-open = Pendiente en todas las columnas
compare-alike-met = Cumplido en todas las columnas
compare-alike = Igual en todas las columnas
compare-alike-idle = Igual en todas las columnas, para un puente de unión que se instale
compare-alike-silent = Ninguna norma conocida en ninguna columna habla de
compare-notes = Notas
compare-left-fact = { $fact } se conoce solo en { $place }, y aquí no dice nada
compare-left-term = { $term } es un término solo de { $place }: lo que el trabajo dice de { $fact } se toma aquí como no sabido
compare-answered-otherwise-page = Respuestas distintas
compare-alike-page = Respuestas iguales
compare-question = Pregunta
compare-answer = Respuesta
compare-columns = Dónde y cuándo
compare-kicker = Un mismo trabajo, lado a lado: unión equipotencial de la tubería de gas
compare-columns-head = Lugares y fechas
compare-columns-caption = Qué resulta para el trabajo, y según qué códigos
compare-place = Lugar
compare-date = Fecha
compare-outcome = Resultado
compare-codes = Códigos vigentes
compare-read = Normas leídas por última vez
compare-facts = Lo que el trabajo dice en todas las columnas
compare-silent-head = Sin norma conocida
compare-cautions = Advertencias
compare-strictest-means = «Lo más estricto» señala una respuesta tan estricta como todas las demás ordenadas de su fila, y más que alguna, según el orden de su propia pregunta. No se ordena una respuesta pendiente, a criterio de la autoridad, contradicha o que no se pide.
compare-written-by = Escrito por Groundrule { $version }. Normas:
compare-csv-question = pregunta
compare-csv-title = título
compare-csv-differs = difiere
compare-csv-answer = respuesta
compare-csv-finding = resultado
compare-csv-strictest = lo más estricto
compare-csv-hangs-on = depende de
compare-csv-texts = textos
compare-csv-unranked = sin ordenar ({ $why })
compare-show-alike = { $count ->
        [one] Mostrar una pregunta
       *[other] Mostrar { $count } preguntas
    }
compare-finding-hangs-on = que se cumpla depende de { $facts }
compare-caption-beside = Cada pregunta con su respuesta en cada columna
compare-caption-grouped = Cada respuesta con los lugares y fechas que la dan
compare-caption-single = Cada pregunta con su respuesta
compare-idle-head = Para un puente de unión que se instale
compare-for-all = Lo que satisfaría todas las columnas
