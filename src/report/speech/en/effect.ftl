# The head.
effect-kicker = Effect of a change in the rules on the bonding of gas piping
effect-title-files = What { $after } answers otherwise than { $before } in { $place }
effect-title-amendment = What { $file } changes in { $place }
effect-title-places = How { $after } differs from { $before }
effect-title-days = What changed in { $place } between { $first } and { $second }
effect-title-day = What changed in { $place }
effect-side-without = the rules without { $file }
effect-side-with = the same rules with { $file }
effect-side-day = jobs all of whose dates are { $day }
effect-own-text = the own text of { $instrument }
effect-jobs-places = the same job in either place
effect-jobs-place = every job in { $place }
effect-jobs-dated = { $jobs }, its dates { $days }
effect-jobs-any-date = { $jobs }, whatever its dates
effect-alike-but-notes = every one of { $all } questions is answered alike for every job; what is said beside the answers differs
effect-alike = every one of { $all } questions is answered alike for every job
effect-undecided = no answer is known to change; { $open } of { $all } questions are not decided
effect-changed = { $some ->
    [one] { $some } of { $all } questions is answered otherwise for some jobs
   *[other] { $some } of { $all } questions are answered otherwise for some jobs
 }

# What is compared.
effect-compared = What is compared
effect-compared-caption = The two sides, and the jobs that are looked at
effect-before = Before
effect-after = After
effect-jobs = Jobs
effect-kinds = Kinds
effect-kinds-of-job = Kinds of job
effect-kinds-none = none of { $all } kinds of job get another answer
effect-kinds-some = { $some } of { $all } kinds of job get another answer to some question
effect-kinds-uncounted = too many to be counted
effect-about-one-in = about 1 in { $count }
effect-nearly-all = nearly all
effect-about-in-hundred = about { $count } in 100
effect-exact-label = Exact
effect-alike-label = Alike
effect-alike-count = { $count ->
    [one] { $count } question is answered alike for every job
   *[other] { $count } questions are answered alike for every job
 }
effect-only-before = Only before
effect-only-after = Only after
effect-only-one-side = asked on one side and compared with nothing: { $titles }
effect-only-before-text = Only before, and compared with nothing: { $titles }
effect-only-after-text = Only after, and compared with nothing: { $titles }
effect-undecided-label = Undecided
effect-not-decided-label = Not decided
effect-kind = Jobs that no test in either text tells apart are of one kind. A kind says nothing of how many such jobs there are.
effect-exact = The conditions below cover exactly the jobs of each change, no more and no fewer. None of them can be left out, and no fewer cases say the same, unless it is said otherwise.
effect-not-decided = more kinds of job than can be told apart within the bound of this program; not decided
effect-caution = Before and after are compared by the text of the rules alone: whether a rule is wise, lawful or enforced is not asked.

# What becomes of an answer.
effect-conflict = conflict
effect-stricter = stricter
effect-looser = looser
effect-otherwise = otherwise
effect-leaves = left open
effect-decides = decided
effect-reconciles = reconciled
effect-conflict-means = the texts contradict each other where they did not
effect-stricter-means = more is asked, or less is permitted
effect-looser-means = less is asked, or more is permitted
effect-otherwise-means = neither stricter nor looser by the order of the question
effect-leaves-means = the text leaves to the authority what it said itself
effect-decides-means = the text says itself what it left to the authority
effect-reconciles-means = the texts no longer contradict each other

# The changes.
effect-glance = At a glance
effect-glance-caption = How many changes each question has, by what becomes of its answer
effect-question = Question
effect-costs-label = What a stricter answer costs
effect-costs = What a stricter answer costs: { $costs }.
effect-costs-line = what a stricter answer costs: { $costs }
effect-costs-not-said = not said
effect-answers-caption = Answers before and after, the graver first
effect-answers-of-kinds = ; of { $kinds } kinds of job that this answer tells apart
effect-number = No.
effect-becomes = Becomes
effect-arrow = becomes
effect-not-counted = not counted
effect-share-what-follows = { $count } changes for jobs that share what follows
effect-some-of-kinds = { $some } of { $all }
effect-some-of-kinds-line = { $some } of { $all } kinds of job
effect-text-before = Text before
effect-text-after = Text after
effect-before-line = before: { $texts }
effect-after-line = after: { $texts }
effect-no-text = no text known here asks for anything
effect-and-more = and { $count } more
effect-beside = Beside it
effect-in-part = whatever else is asked stays as it was
effect-note = Note
effect-not-proven = whether fewer cases say the same was not proven within this program's bounds
effect-each-caption = Each of these changes, where besides
effect-before-and-after = Before and after
effect-where-besides = Where besides
effect-each-where-besides = each where besides
effect-where-line = where { $conditions } ({ $notes })
effect-job = A job that shows it, to be pasted into a rule file
effect-jobs-shown = Jobs that show them, to be pasted into a rule file
effect-job-line = a job that shows it, to be pasted into a rule file:
effect-jobs-line = jobs that show them, to be pasted into a rule file:
effect-in-the-language = The same conditions in the language of the rules
effect-every-job = For every job
effect-every-job-line = for every job
effect-where-all = Where all of this holds
effect-where = where
effect-and-one = and one of these
effect-where-one = Where one of these holds
effect-where-one-line = where one of these holds
effect-nothing-more = nothing more
effect-further = { $count ->
    [one] { $count } further change of this answer: { $directions } (--all tells them)
   *[other] { $count } further changes of this answer: { $directions } (--all tells them)
 }
effect-more-like-these = and { $count } more like these (--all tells them)
effect-one-of-more = or one of { $count } more (--all tells them)
effect-notes-before = Said before and no longer, beside the answers
effect-notes-after = Said after and not before, beside the answers
effect-words = What the words mean
effect-cautions = Cautions
effect-printed-from = The conditions in the language of the rules stand in the file that this was printed from.
effect-written-by = Written by Groundrule { $version }. Rules before:
effect-rules-after = , after:
effect-example-name = { $question }: { $after } instead of { $before }
effect-what-is-asked = what the text asks
effect-without = without { $answer }
effect-role-by = { $text }, { $role } by { $by }

# Conditions.
effect-applied-for = applied for
effect-permit-issued = permit issued
effect-contract-signed = contract signed
effect-work-begun = work begun
effect-on-day = on { $day }
effect-from-through = from { $from } through { $through }
effect-on-or-after = on or after { $day }
effect-before-day = before { $day }
effect-already-in-force = { $instrument } is already in force (it is not known from which day)
effect-not-yet-in-force = { $instrument } is not yet in force (it is not known from which day)
effect-answer-is = { $question }: { $answers }
effect-answer-is-or-left = { $question }: { $answers }, or left to the authority
effect-within = within { $period } after the { $fact }
effect-not-within = not within { $period } after the { $fact }
effect-anything-but = anything but { $names }
effect-fact-no = { $fact }: no
effect-among = among { $fact }: { $names }
effect-not-among = not among { $fact }: { $names }
effect-the = the { $fact }
effect-there-is = there is { $what }
effect-there-is-no = there is no { $what }
effect-at-least-one = at least one { $what }
effect-none = no { $what }
effect-with = { $what } ({ $conditions })
effect-either = either { $cases }
effect-days = { $count ->
    [one] { $count } day
   *[other] { $count } days
 }
effect-months = { $count ->
    [one] { $count } month
   *[other] { $count } months
 }
effect-years = { $count ->
    [one] { $count } year
   *[other] { $count } years
 }
