# Outcomes.
sheet-complies = CUMPLE
sheet-corrections = HAY QUE CORREGIR
sheet-conflict = LAS NORMAS SE CONTRADICEN
sheet-refer = CONSULTE A LA AUTORIDAD
sheet-open = FALTAN DATOS
sheet-complies-why = lo que dice el trabajo hace lo que piden las normas vigentes
sheet-corrections-why = { $count ->
    [one] { $count } cosa no se hace como piden las normas: { $titles }
   *[other] { $count } cosas no se hacen como piden las normas: { $titles }
 }
sheet-conflict-why = hay normas vigentes que se contradicen, y la autoridad debe decir cuál aplica
sheet-refer-why = { $count ->
    [one] las normas le dejan { $count } respuesta, o se lee de dos maneras
   *[other] las normas le dejan { $count } respuestas, o se leen de dos maneras
 }
sheet-no-code-reaches = ningún código sobre { $subjects } conocido aquí alcanza el trabajo en sus fechas
sheet-open-no-fact = una respuesta depende de algo que ningún dato del trabajo puede decidir
sheet-open-why = { $count ->
    [one] { $count } dato que falta podría cambiar una respuesta, ante todo: { $prompt }
   *[other] { $count } datos que faltan podrían cambiar una respuesta, ante todo: { $prompt }
 }

# The head.
sheet-no-dates = no se conoce ninguna
sheet-fact-not-known = { $fact }: no se sabe
sheet-edition-by = { $edition } por { $instrument }
sheet-edition-perhaps-by = quizá { $edition } por { $instrument }
sheet-no-code = ninguno de los conocidos aquí alcanza el trabajo

# Marks of a finding.
sheet-mark-met = cumple
sheet-mark-not-met = NO CUMPLE
sheet-mark-open = PENDIENTE
sheet-mark-refer = CONSULTAR
sheet-mark-conflict = CONTRADICCIÓN
sheet-mark-none = -

# Answers.
sheet-left-to-authority = lo decide la autoridad
sheet-left-apart-from = lo decide la autoridad; por lo demás, { $value }
sheet-hangs-on = depende de { $facts }
sheet-contradict = las normas se contradicen
sheet-contradict-value = las normas se contradicen ({ $value })
sheet-either = o bien { $low } o bien { $high }
sheet-not-settled = sin decidir
sheet-or-refer = o le toca decirlo a la autoridad
sheet-or-contradict = o las normas se contradicen
sheet-too-much-unknown = se desconoce demasiado para distinguir todos los casos
sheet-settled = decidido
sheet-silent = ninguna norma conocida aquí obliga
sheet-never-met = nada de lo que diga un trabajo lo cumple: lo prohibido no se usa
sheet-done-where = se cumple donde { $condition }
sheet-no-equivalent = el texto que rige no nombra equivalente para lo que usa el trabajo: consulte a la autoridad
sheet-turns-on-referred = depende de otra respuesta que decide la autoridad
sheet-else = si no
sheet-if = si { $condition }
sheet-where = donde { $condition }:
sheet-fact-is = { $fact } es { $value }
sheet-no-further = ningún otro { $list }
sheet-in-force = { $instrument } está en vigor
sheet-not-yet-in-force = { $instrument } aún no está en vigor
sheet-and = y
sheet-or = o
sheet-and-more-texts = { $count ->
    [one] { $texts }; y { $count } texto más
   *[other] { $texts }; y { $count } textos más
 }
sheet-advised = se aconseja { $advice }
sheet-idle = Solo para un puente que se ponga de todos modos
sheet-idle-to-come = Del puente que aún falta poner
sheet-idle-perhaps = De un puente, si resulta que se exige unión directa
sheet-idle-relied-on = Del puente en el que descansa el camino para la corriente de falla; al trabajo no se le exige
sheet-idle-unasked = Ninguna norma exige el puente que hay; de uno las normas dicen
sheet-idle-facts = Solo si se pone un puente de todos modos
sheet-idle-facts-to-come = Para el puente que aún falta poner
sheet-idle-facts-perhaps = Para un puente, si resulta que se exige unión directa
sheet-idle-facts-there = Del puente que hay
sheet-job-has = el trabajo tiene { $value }
sheet-job-says = el trabajo dice: { $value }
sheet-rests-on-jumper = no se sabe de ningún aparato con circuito o cordón, así que el camino descansa solo en el puente: lo llevan su propio calibre, su abrazadera y su conexión, y estos no se compararon con las normas, porque no se exige unión directa
sheet-rests-on-earth = el puente se conecta a un electrodo añadido que no está unido a nada más, y la tierra no es camino para la corriente de falla (NEC 250.4(A)(5), de memoria: mire el texto mismo)
sheet-asks-only-where = { $text } lo pide solo donde { $condition }
sheet-nothing-asks-more = ningún texto vigente pide más

# Reasons.
sheet-role-governs = rige
sheet-role-weaker = menos estricto
sheet-role-advice = consejo
sheet-role-not-in-force = no está en vigor
sheet-role-passed-over = no alcanza el trabajo
sheet-role-replaced = reemplazado
sheet-role-deleted = suprimido
sheet-role-excepted = exceptuado
sheet-role-superseded = sustituido
sheet-role-suspended = suspendido
sheet-role-repealed = derogado
sheet-role-pre-empted = desplazado por una ley superior
sheet-role-read-as = leído de otro modo
sheet-by-text = por { $text } de { $issuer }, { $when }
sheet-would-need = necesitaría { $condition }
sheet-text-of = { $kind } de { $issuer }, { $when }
sheet-edition-adopted-by = la edición adoptada por { $instrument }
sheet-no-day-recorded = no consta desde qué día rige
sheet-in-force-span = en vigor { $span }
sheet-read = leído el { $day }: { $place }
sheet-from-memory = anotado de memoria
sheet-common-practice = práctica común del oficio
sheet-not-said-where = no consta dónde se leyó

# Texts of the law.
sheet-as-amended-by = { $text } (enmendado por { $instrument })
sheet-kind-statute = ley
sheet-kind-regulation = reglamento
sheet-kind-emergency-rule = norma de emergencia
sheet-kind-ordinance = ordenanza
sheet-kind-resolution = resolución
sheet-kind-order = orden
sheet-kind-ruling = fallo
sheet-kind-bulletin = boletín
sheet-kind-opinion = opinión
sheet-kind-interpretation = interpretación
sheet-kind-guidance = guía
sheet-kind-instructions = instrucciones del fabricante
sheet-kind-service-rule = regla de servicio
sheet-from-day = desde el { $day }
sheet-from-unknown = desde un día que no se conoce
sheet-from-unknown-adopted = desde un día que no se conoce, adoptado el { $day }
sheet-from-between = desde un día entre el { $first } y el { $last }
sheet-through-day = { $start } hasta el { $day }
sheet-end-unknown = { $start }, su fin no se conoce

# What is said beside the answers.
sheet-moot-referral = se remite a la autoridad, lo que no cambia nada en la respuesta más estricta: { $why }
sheet-may-lack-equivalent = el texto que rige no nombra equivalente para lo que usa el trabajo
sheet-fact-presumed = { $fact } se supone: { $presumed }
sheet-presumed-yes = sí ({ $condition })
sheet-presumed-no = no (no se da { $condition })
sheet-presumed-where = sí donde { $condition }
sheet-early = { $fact } { $date } es anterior al { $first }, el primer día de toda norma conocida aquí
sheet-began-unknown = no se sabe qué día empezó a regir { $instrument } de { $issuer }; la fecha del trabajo puede ser anterior
sheet-text-from-memory = { $text }: anotado de memoria; consulte el texto mismo
sheet-nothing-recorded = no constan normas propias de { $place }, ni que no las tenga: pregunte allí

# Facts.
sheet-given = dado
sheet-presumed = supuesto
sheet-unknown = no se sabe
sheet-further-entries = otros, de los que nada se sabe
sheet-list-each = Indique cada uno, o diga que no hay ninguno: { $prompt }
sheet-list-further = Indique cada uno que aún no se ha nombrado: { $prompt }
sheet-known-at = { $who }, en { $when }

# Who can know a fact, and when.
sheet-who-contractor = contratista
sheet-who-electrician = electricista
sheet-who-inspector = inspector
sheet-who-owner = propietario
sheet-stage-bid = el presupuesto
sheet-stage-permit = el permiso
sheet-stage-rough = la instalación en bruto
sheet-stage-final = la inspección final

# What is on its way.
sheet-proposed = propuesto: { $instrument } de { $issuer }, { $title }
sheet-enacted = promulgado: { $instrument } de { $issuer }, { $title }

# What is said at the end of every page.
sheet-caution-gas = ¿Huele a gas? Salga, no toque ningún interruptor y llame desde afuera al proveedor de gas o al 911.
sheet-caution-panel = El trabajo en un tablero con corriente y la prueba de fugas posterior corresponden a personal calificado.
sheet-caution-risk = La conexión equipotencial reduce el riesgo de daños por arco de rayos cercanos y no lo elimina.
sheet-caution-rules = Esto trata de normas escritas en una fecha. Los datos no se inspeccionaron; decide la autoridad competente.
sheet-rules-read = Las normas de { $places } se leyeron por última vez el { $day }, { $age }.
sheet-rules-read-long-ago = Las normas de { $places } se leyeron por última vez el { $day }, { $age }; pregunte en la oficina qué hubo desde entonces.
sheet-rules-unread = No consta cuándo se leyeron por última vez las normas de { $places }.
sheet-after-today = después de hoy según el reloj de esta máquina
sheet-today = hoy
sheet-yesterday = ayer
sheet-days-ago = { $count ->
    [one] hace { $count } día
   *[other] hace { $count } días
 }
sheet-months-ago = { $count ->
    [one] hace { $count } mes
   *[other] hace { $count } meses
 }
sheet-years-ago = { $count ->
    [one] hace { $count } año
   *[other] hace { $count } años
 }
