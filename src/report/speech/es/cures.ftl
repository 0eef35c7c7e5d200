cures-none = nada de lo que el contratista puede elegir lo remedia
cures-not-decided = { $count ->
    [one] no se encontró remedio con { $count } cambio, y no está demostrado que no lo haya
   *[other] no se encontró remedio con hasta { $count } cambios, y no está demostrado que no lo haya
 }
cures-change = { $fact }: { $to }
cures-change-from = { $fact }: { $to }, en lugar de { $from }
cures-every = { $fact } de cada { $list } en que es { $from }
cures-and = y
cures-or = o
cures-also = también { $terms }
cures-without = sin { $terms }
cures-over = más de { $figure }
cures-under = menos de { $figure }
cures-another = otro
cures-other-than = cualquiera distinto de { $names }
cures-then-known = entonces habrá que saber: { $facts }

# Ways side by side.
cures-whatever = cualquiera que sea
cures-way = OPCIÓN { $choice }
cures-way-as-said = TAL COMO ESTÁ EL TRABAJO
cures-way-prohibited = PROHIBIDO { $choice }
cures-way-perhaps = SIN DECIDIR { $choice }
cures-way-not-settled = aún sin decidir:
cures-way-refers = queda a criterio de la autoridad: { $titles }
cures-way-to-know = falta saber: { $facts }
cures-way-to-choose = falta elegir: { $facts }
cures-costs = cuesta { $cost }
cures-costs-in-kind = Los costos se dicen en especie, según la práctica común del oficio; no se indica ningún precio.
cures-too-many-ways = Hay demasiadas combinaciones de lo que está abierto para ponerlas lado a lado; diga más del trabajo.
