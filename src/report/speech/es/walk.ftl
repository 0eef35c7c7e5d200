walk-greeting = Una pregunta a la vez, y solo las que todavía pueden cambiar una respuesta. Responda con un nombre, su comienzo o su número; ? si no se sabe.
walk-greeting-keys = Además: atrás, por qué, lista, cambiar, quitar, guardar, listo, parar; ayuda dice qué hace cada uno.
walk-help-answer = Una respuesta: un nombre, su comienzo, su número en la lista, una cifra, una fecha, sí o no.
walk-help-unknown = ? : no se sabe. El dictamen dirá entonces qué depende de ello. Solo el lugar hay que nombrarlo.
walk-help-back = atrás : se retira la última respuesta y se repite la pregunta.
walk-help-why = por qué : todas las respuestas que podrían cambiar, con las reglas que esperan esto; por qué todo : también lo que quedó sin efecto.
walk-help-list = lista : lo dicho hasta ahora, numerado.
walk-help-change = cambiar 3, cambiar jumper.length : otra respuesta a lo ya dicho, por su número en la lista o su nombre.
walk-help-drop = quitar run 2 : se quita la segunda entrada de la lista `run`.
walk-help-save = guardar ARCHIVO : escribe la hoja del trabajo hasta aquí y sigue.
walk-help-done = listo : el dictamen sobre lo que se sabe ahora, y la hoja del trabajo.
walk-help-stop = parar : la hoja del trabajo hasta aquí, sin dictamen. Lo mismo hacen el fin de la entrada y Ctrl-C.
walk-head = Pregunta { $number }.
walk-left = Aún importan { $left } cosas.
walk-part-own = Usted puede saberlo { $when }.
walk-part-other = Lo debe decir { $who }: pregunte, o responda ? por ahora.
walk-or = {" "}o{" "}
walk-who-contractor = el contratista
walk-who-electrician = el electricista
walk-who-inspector = el inspector
walk-who-owner = el propietario
walk-when-bid = al presupuestar
walk-when-permit = al pedir el permiso
walk-when-rough = en la instalación en bruto
walk-when-final = en la inspección final
walk-when-other = en { $when }
walk-title-place = Lugar
walk-title-of-record = { $record } – { $title }
walk-title-of-entry = { $list } { $number } – { $title }
walk-entry = { $list }, número { $number } de { $all }
walk-entries = { $count ->
    [one] { $count } entrada
   *[other] { $count } entradas
}
walk-entries-and-others = { $count ->
    [one] { $count } entrada, y quizá otras
   *[other] { $count } entradas, y quizá otras
}
walk-ask-place = ¿Dónde es el trabajo?
walk-ask-entries = ¿Cuántos hay de esto: { $list }?
walk-ask-further = ¿Cuántos hay además de los { $known } ya nombrados: { $list }?
walk-hint-place = el nombre de una ciudad, un condado o un estado, o su comienzo, que se confirma luego con su número; lista muestra los lugares conocidos
walk-hint-yes-no = sí o no, o ? si no se sabe
walk-hint-date = una fecha como 2024-03-01 (año, mes, día), hoy, ninguna si no la hay, o ? si no se sabe
walk-hint-count = un número entero, o ? si no se sabe
walk-hint-gauge = un calibre como 6 AWG, 1/0 AWG, 250 kcmil o 16 mm2, o ? si no se sabe; un 6 solo es 6 AWG
walk-hint-quantity = una cifra como 10 { $unit }, o ? si no se sabe; una cifra sola está en { $unit }
walk-hint-name = un nombre, ninguno si no hay a quién o qué nombrar, o ? si no se sabe
walk-hint-known-name = uno de estos, cualquier otro nombre, ninguno si no hay a quién o qué nombrar, o ? si no se sabe
walk-hint-choice = uno de estos por número, nombre o comienzo, o ? si no se sabe
walk-hint-several = los que correspondan, separados por comas, ninguno si no hay, o ? si no se sabe
walk-hint-entries = un número, ninguno, 2+ si son dos y quizá otros, o ? si no se sabe nada; después se pregunta por cada uno
walk-hint-further = un número, ninguno, o ? si no se sabe nada de otros
walk-now = El trabajo dice: { $value }. Una línea vacía lo deja así.
walk-now-unknown = Hasta ahora no se sabe. Una línea vacía lo deja así.
walk-why = { $count ->
    [one] Se pregunta porque una respuesta depende de ello:
   *[other] Se pregunta porque { $count } respuestas dependen de ello:
}
walk-why-governed = Decide si algún código llega a regir el trabajo: { $subjects }.
walk-why-others = { $count ->
    [one] y otra más; por qué las dice todas
   *[other] y otras { $count }; por qué las dice todas
}
walk-why-stands-on = se basa en { $texts }
walk-why-and-texts = ; y { $count } más
walk-why-more = por qué todo dice también lo más débil y lo que quedó sin efecto.
walk-why-nothing = Ahora ninguna respuesta depende de ello.
walk-change-between = { $question }: { $low }, o { $high }
walk-change-met = { $question }: { $answer }; falta saber si el trabajo lo cumple
walk-change-refer = , o lo decide la autoridad
walk-not-known = no se sabe
walk-idle = {" "}(ahora no cambia nada)
walk-list-change = cambiar y un número da otra respuesta.
walk-noted = { $title }: { $value }.
walk-dropped = Quitado.
walk-back-none = No hay ninguna respuesta que retirar.
walk-back = Retirada.
walk-change-how = Escriba cambiar y un número de la lista, o un nombre: cambiar 3, cambiar jumper.length.
walk-change-none = Nada de lo dicho o preguntado se llama `{ $what }`. lista muestra lo dicho, con números.
walk-drop-none = No existe esa entrada. Escriba quitar, el nombre de una lista y un número, por ejemplo quitar run 2.
walk-moved = Se quitó lo que no se conoce en el lugar nuevo: { $facts }.
walk-wrong-empty = No hubo respuesta.
walk-wrong-number = `{ $typed }` no es un número de la lista: va de 1 a { $most }.
walk-wrong-several = Varios comienzan con `{ $typed }`; escriba más de uno:
walk-wrong-place = Ningún lugar de estas reglas se llama `{ $typed }`.
walk-wrong-place-needed = Sin un lugar no se puede mirar ninguna norma.
walk-wrong-place-none = lista muestra los lugares conocidos; --rules carga otros.
walk-wrong-places = Varios lugares se llaman `{ $typed }`; ¿cuál es?
walk-wrong-near = ¿Quiso decir uno de estos?
walk-wrong-count = `{ $typed }` no es un número de entradas.
walk-wrong-unread = `{ $typed }` no cabe aquí.
walk-wrong-because = Eso no cabe: { $reason }.
walk-refused-misplaced = Eso no responde a esta pregunta.
walk-save-where = ¿En qué archivo se guarda la hoja del trabajo? Una línea vacía la imprime aquí.
walk-saved = La hoja del trabajo se escribió en `{ $file }`.
walk-save-exists = `{ $file }` ya existe. Nombre otro archivo, o empiece de nuevo con --over.
walk-save-failed = No se puede escribir `{ $file }`: { $reason }.
walk-save-no-place = Todavía no hay nada que guardar: no se sabe el lugar.
walk-ended = La entrada terminó. Esta es la hoja del trabajo hasta aquí; empiece con ella para seguir.
walk-stopped = Esta es la hoja del trabajo hasta aquí; empiece con ella para seguir.
walk-nothing-left = Nada más puede cambiar una respuesta.
walk-sheet = La hoja del trabajo:
walk-no-place = sin un lugar no hay dictamen
