cures-none = nothing that the contractor could choose mends it
cures-not-decided = { $count ->
    [one] no cure of { $count } change was found, and that there is none is not proven
   *[other] no cure of up to { $count } changes was found, and that there is none is not proven
 }
cures-change = { $fact }: { $to }
cures-change-from = { $fact }: { $to }, instead of { $from }
cures-every = { $fact } of every { $list } for which it is { $from }
cures-and = and
cures-or = or
cures-also = also { $terms }
cures-without = without { $terms }
cures-over = over { $figure }
cures-under = under { $figure }
cures-another = another
cures-other-than = any other than { $names }
cures-then-known = then to be known: { $facts }

# Ways side by side.
cures-whatever = whatever it is
cures-way = WAY { $choice }
cures-way-as-said = AS THE JOB STANDS
cures-way-prohibited = PROHIBITED { $choice }
cures-way-perhaps = NOT SETTLED { $choice }
cures-way-not-settled = not settled yet:
cures-way-refers = left to the authority: { $titles }
cures-way-to-know = still to be known: { $facts }
cures-way-to-choose = still to be chosen: { $facts }
cures-costs = costs { $cost }
cures-costs-in-kind = Costs are told in kind, as common practice of the trade has it; no price is meant.
cures-too-many-ways = There are too many combinations of what is open to lay them side by side; say more of the job.
