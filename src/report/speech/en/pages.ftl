pages-counter = Permit counter
pages-skip = Skip to the page
pages-rooms = Rooms of the counter
pages-room-job = Job
pages-room-verdict = Verdict
pages-room-ways = Lawful ways
pages-room-compare = Compare
pages-room-rules = Rules
pages-room-map = Map
pages-feet = feet
pages-metres = metres
pages-cautions = Cautions
pages-engine = Groundrule { $engine }, rules

# The job.
pages-job-title = What is the job?
pages-place = Place
pages-place-ask = In which city, county or town is the job? What is just a mailing address may lie in another.
pages-reference = Reference
pages-reference-ask = Reference, such as a permit number
pages-dates = Dates
pages-codes = Codes
pages-part = { $who }, at { $when }
pages-part-any = Whoever knows
pages-unknown = not known
pages-none-of-these = none of these
pages-none-ticked = Nothing ticked means not known.
pages-empty-unknown = Empty means not known.
pages-hint-count = A whole number.
pages-hint-gauge = A wire size such as 6 AWG, 250 kcmil or 16 mm2.
pages-hint-unit = A figure in { $unit }, or with another unit that measures the same.
pages-hint-list = How many: a number, “2+” where there may be others, “none”.
pages-hint-date = Year, month and day; “none” where there is none.
pages-hint-name = “none” where there is none to name.
pages-could-change = Could change:
pages-update = Update
pages-begin = Begin
pages-whole-verdict = Verdict with all reasons
pages-to-verdict = To the verdict
pages-to-questions = Back to the questions
pages-no-place-yet = Say where the job is, and the questions that matter there appear.
pages-open = Open a job
pages-open-help = Paste a job sheet, or a job as JSON.
pages-open-button = Open
pages-open-pasted = the job that was pasted
pages-open-spot = line { $line }, column { $column }
pages-open-several = several jobs stand where one is opened
pages-open-one = paste the one that is meant
pages-open-long = its link would have { $letters } letters, and at most { $most } are taken
pages-open-divide = send the job to /api/verdict, or divide it into several
pages-samples = Or begin with a sample:

# What is wrong with a job.
pages-wrong = { $count ->
    [one] One thing could not be read
   *[other] { $count } things could not be read
 }
pages-near = Perhaps you mean
pages-wrong-place-missing = say where the job is
pages-wrong-no-place = no place is called so here
pages-wrong-places = several places are called so
pages-wrong-no-fact = there is no fact of this name at this place
pages-wrong-twice = it is said more than once
pages-wrong-no-entry = the list has no such entry: say first how many it has
pages-wrong-dates = the dates contradict each other
pages-wrong-empty = nothing is written
pages-wrong-number = the list goes from 1 to { $most }
pages-wrong-several = it is the beginning of several
pages-wrong-count = write how many there are, or “none”
pages-wrong-entries = a link opens at most { $most } entries of a list; send a larger job to /api/verdict
pages-wrong-mend = { $page } with the same link shows beside its field what is wrong

# The verdict.
pages-change-job = Change the job
pages-work = The work in order
pages-job-has = the job has
pages-job-unsaid = the job does not say
pages-hangs-on = hangs on
pages-why = Why
pages-loose = Nothing asked of this job:
pages-silent = No rule known here speaks of:
pages-against = Against what is advised:
pages-ask = To find out, the most telling first
pages-changes = could change
pages-office = The authority to ask:
pages-notes = Notes
pages-pending = On its way, and not in force
pages-rule-cautions = Cautions of the rules
pages-memory = Written down from memory, look at the text itself:
pages-facts = The facts of the job
pages-facts-caption = As they were given, presumed or left unknown; none of them was inspected
pages-fact = Fact
pages-said = What is said
pages-how = How it is known
pages-files = To keep and to pass on
pages-share = The address of this page carries the whole job; nothing is kept elsewhere.
pages-file-sheet = Job sheet
pages-file-json = Job as JSON
pages-file-verdict = Verdict as JSON
pages-sample-new-house = a new house with plain tubing
pages-sample-jacket = a house where the jacket on the tubing is not known
pages-sample-long-wire = a bonding wire that is too long
pages-sample-shop = a detached shop that is fed from the house

# Comparing.
pages-compare-title = Compare this job
pages-compare-choose = Choose places and days
pages-compare-places = Places
pages-compare-days = Days
pages-compare-days-help = Days with commas between them, such as 2018-06-01, 2026-04-20; each stands for every date that the job leaves unsaid. Empty means the job's own dates.
pages-compare-button = Compare
pages-compare-two = tick at least two places, or write at least two days
pages-compare-many = { $count } columns are asked for, and at most { $most } are laid side by side
pages-wrong-day = it is no day that exists
pages-file-print = This comparison as a sheet to print
pages-file-csv = This comparison for a spreadsheet (CSV)

# Picture, papers, ways.
pages-picture = Drawn from the facts of the job; what is not known is drawn as not known.
pages-picture-alone = The picture by itself
pages-papers = Papers
pages-mend = What would mend it:
pages-ways-lead = Every choice of piping that the job leaves open, and what each asks for; what a choice costs is told in kind, not in money.
pages-ways-too-many = There are too many choices to lay all of them side by side: say more of the job.
pages-ways-none = The job leaves no choice of piping open.
pages-way-lawful = lawful
pages-way-prohibited = PROHIBITED
pages-way-requires = What it asks for
pages-way-open = NOT SETTLED
pages-way-not-settled = Not settled yet
pages-way-question = Question
pages-way-value = Answer
pages-way-costs = What it costs, in kind
pages-way-nothing = Nothing more is asked for.
pages-way-refers = Left to the authority:
pages-way-to-know = Still to be known:
pages-way-to-choose = Still to be chosen:
pages-missing = There is no such page
