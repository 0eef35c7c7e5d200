# Outcomes.
sheet-complies = COMPLIES
sheet-corrections = CORRECTIONS NEEDED
sheet-conflict = RULES CONFLICT
sheet-refer = ASK THE AUTHORITY
sheet-open = NOT ENOUGH KNOWN
sheet-complies-why = what the job says does what the rules in force ask
sheet-corrections-why = { $count ->
    [one] { $count } thing is not done as the rules ask: { $titles }
   *[other] { $count } things are not done as the rules ask: { $titles }
 }
sheet-conflict-why = rules in force contradict each other, and the authority must say which it applies
sheet-refer-why = { $count ->
    [one] { $count } answer is left to it by the rules, or read in two ways
   *[other] { $count } answers are left to it by the rules, or read in two ways
 }
sheet-no-code-reaches = no code on { $subjects } that is known here reaches the job on its dates
sheet-open-no-fact = an answer hangs on what no fact of the job can settle
sheet-open-why = { $count ->
    [one] { $count } missing fact could change an answer, first of all: { $prompt }
   *[other] { $count } missing facts could change an answer, first of all: { $prompt }
 }

# The head.
sheet-no-dates = none known
sheet-fact-not-known = { $fact } not known
sheet-edition-by = { $edition } by { $instrument }
sheet-edition-perhaps-by = perhaps { $edition } by { $instrument }
sheet-no-code = none known here reaches the job

# Marks of a finding.
sheet-mark-met = met
sheet-mark-not-met = NOT MET
sheet-mark-open = OPEN
sheet-mark-refer = REFER
sheet-mark-conflict = CONFLICT
sheet-mark-none = -

# Answers.
sheet-left-to-authority = left to the authority
sheet-left-apart-from = left to the authority; apart from that, { $value }
sheet-hangs-on = hangs on { $facts }
sheet-contradict = the rules contradict each other
sheet-contradict-value = the rules contradict each other ({ $value })
sheet-either = either { $low } or { $high }
sheet-not-settled = not settled
sheet-or-refer = or it is for the authority to say
sheet-or-contradict = or the rules contradict each other
sheet-too-much-unknown = too much is unknown to tell all cases apart
sheet-settled = settled
sheet-silent = no rule known here binds
sheet-never-met = nothing that a job can say does this: what is prohibited is not used
sheet-done-where = done where { $condition }
sheet-no-equivalent = the text that governs names no equivalent for what the job uses: ask the authority
sheet-turns-on-referred = it turns on another answer that is left to the authority
sheet-else = else
sheet-if = if { $condition }
sheet-where = where { $condition }:
sheet-fact-is = { $fact } is { $value }
sheet-no-further = no further { $list }
sheet-in-force = { $instrument } is in force
sheet-not-yet-in-force = { $instrument } is not yet in force
sheet-and = and
sheet-or = or
sheet-and-more-texts = { $count ->
    [one] { $texts }; and { $count } other text
   *[other] { $texts }; and { $count } other texts
 }
sheet-advised = advised is { $advice }
sheet-idle = Only for a jumper that is put in all the same
sheet-idle-to-come = Of the jumper that is still to be put in
sheet-idle-perhaps = Of a jumper, if a direct bond turns out to be required
sheet-idle-relied-on = Of the jumper on which the path for fault current rests; the job is not held against it
sheet-idle-unasked = No rule requires the jumper that is there; of one the rules say
sheet-idle-facts = Only if a jumper is put in all the same
sheet-idle-facts-to-come = For the jumper that is still to be put in
sheet-idle-facts-perhaps = For a jumper, if a direct bond turns out to be required
sheet-idle-facts-there = Of the jumper that is there
sheet-job-has = the job has { $value }
sheet-job-says = the job says: { $value }
sheet-rests-on-jumper = no appliance is known to have a circuit or a cord, so that the path rests on the jumper alone: its own size, clamp and landing are what carries it, and they were not held against the rules, because no direct bond is required
sheet-rests-on-earth = the jumper lands on an added electrode that is bonded to nothing else, and earth is no path for fault current (NEC 250.4(A)(5), from memory: look at the text itself)
sheet-asks-only-where = { $text } asks only where { $condition }
sheet-nothing-asks-more = no text in force asks for more

# Reasons.
sheet-role-governs = governs
sheet-role-weaker = weaker
sheet-role-advice = advice
sheet-role-not-in-force = not in force
sheet-role-passed-over = passed over
sheet-role-replaced = replaced
sheet-role-deleted = deleted
sheet-role-excepted = excepted
sheet-role-superseded = superseded
sheet-role-suspended = suspended
sheet-role-repealed = repealed
sheet-role-pre-empted = pre-empted
sheet-role-read-as = read as
sheet-by-text = by { $text } of { $issuer }, { $when }
sheet-would-need = would need { $condition }
sheet-text-of = { $kind } of { $issuer }, { $when }
sheet-edition-adopted-by = the edition adopted by { $instrument }
sheet-no-day-recorded = no day in force is recorded
sheet-in-force-span = in force { $span }
sheet-read = read on { $day }: { $place }
sheet-from-memory = written down from memory
sheet-common-practice = common practice of the trade
sheet-not-said-where = it is not said where it was read

# Texts of the law.
sheet-as-amended-by = { $text } as amended by { $instrument }
sheet-kind-statute = statute
sheet-kind-regulation = regulation
sheet-kind-emergency-rule = emergency rule
sheet-kind-ordinance = ordinance
sheet-kind-resolution = resolution
sheet-kind-order = order
sheet-kind-ruling = ruling
sheet-kind-bulletin = bulletin
sheet-kind-opinion = opinion
sheet-kind-interpretation = interpretation
sheet-kind-guidance = guidance
sheet-kind-instructions = maker’s instructions
sheet-kind-service-rule = service rule
sheet-from-day = from { $day }
sheet-from-unknown = from a day not known
sheet-from-unknown-adopted = from a day not known, adopted { $day }
sheet-from-between = from a day between { $first } and { $last }
sheet-through-day = { $start } through { $day }
sheet-end-unknown = { $start }, its end not known

# What is said beside the answers.
sheet-moot-referral = referred, which changes nothing at the strictest answer: { $why }
sheet-may-lack-equivalent = the text that governs names no equivalent for what the job uses
sheet-fact-presumed = { $fact } is presumed { $presumed }
sheet-presumed-yes = yes: { $condition }
sheet-presumed-no = no: not ({ $condition })
sheet-presumed-where = yes where { $condition }
sheet-early = { $fact } { $date } lies before { $first }, the first day of any law known here
sheet-began-unknown = it is not known on which day { $instrument } of { $issuer } began; the job's date may lie before it
sheet-text-from-memory = { $text }: written down from memory; look at the text itself
sheet-nothing-recorded = no rules of its own are recorded for { $place }, nor that it has none: ask there

# Facts.
sheet-given = given
sheet-presumed = presumed
sheet-unknown = not known
sheet-further-entries = further ones, of which nothing is known
sheet-list-each = List each, or say that there is none: { $prompt }
sheet-list-further = List each that is not yet named: { $prompt }
sheet-known-at = { $who } at { $when }

# Who can know a fact, and when.
sheet-who-contractor = contractor
sheet-who-electrician = electrician
sheet-who-inspector = inspector
sheet-who-owner = owner
sheet-stage-bid = bid
sheet-stage-permit = permit
sheet-stage-rough = rough
sheet-stage-final = final

# What is on its way.
sheet-proposed = proposed: { $instrument } of { $issuer }, { $title }
sheet-enacted = enacted: { $instrument } of { $issuer }, { $title }

# What is said at the end of every page.
sheet-caution-gas = Smell gas? Leave, touch no switch, and call the gas supplier or 911 from outside.
sheet-caution-panel = Work at a live panel and the leak check after it belong to qualified people.
sheet-caution-risk = Bonding lowers the risk of arc damage from nearby lightning and removes none.
sheet-caution-rules = This is about written rules on a date. The facts were not inspected; the authority having jurisdiction decides.
sheet-rules-read = The rules of { $places } were last read on { $day }, { $age }.
sheet-rules-read-long-ago = The rules of { $places } were last read on { $day }, { $age }; ask the office what came since.
sheet-rules-unread = It is not recorded when the rules of { $places } were last read.
sheet-after-today = after today by this machine's clock
sheet-today = today
sheet-yesterday = yesterday
sheet-days-ago = { $count ->
    [one] { $count } day ago
   *[other] { $count } days ago
 }
sheet-months-ago = { $count ->
    [one] { $count } month ago
   *[other] { $count } months ago
 }
sheet-years-ago = { $count ->
    [one] { $count } year ago
   *[other] { $count } years ago
 }
