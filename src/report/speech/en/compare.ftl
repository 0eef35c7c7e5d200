compare-headline = One job at { $places ->
        [one] one place
       *[other] { $places } places
    }{ $days ->
        [one] {""}
       *[other] {" "}on { $days } days
    }: { $some ->
        [0] all { $all } questions are answered alike
        [one] { $some } of { $all } questions is answered otherwise
       *[other] { $some } of { $all } questions are answered otherwise
    }
compare-job = Job
compare-code = { $edition } by { $by } ({ $subjects })
compare-code-perhaps = perhaps { $edition } by { $by } ({ $subjects })
compare-last-read = rules last read { $day }
compare-not-recorded = not recorded
compare-answered-otherwise = ANSWERED OTHERWISE
compare-asked-only-in = Asked only for { $columns }
compare-strictest = strictest
compare-banned = not applicable: this tubing is prohibited (otherwise { $answer })
compare-idle = for a jumper that is put in: { $answer }
compare-no-such-question = no question of this place
compare-may-change = may change with what is not known
compare-hangs-on = may change: hangs on { $facts }
compare-not-comparable = None of these answers is as strict as all the others
compare-unranked = Not ranked: { $columns } ({ $why })
compare-unranked-open = open
compare-unranked-idle = not asked of this job there
compare-alike-not-met = Not met in any column
compare-alike-open = Open in every column
compare-alike-met = Met in every column
compare-alike = The same in every column
compare-alike-idle = The same in every column, for a jumper that is put in
compare-alike-silent = No rule known in any column speaks of
compare-notes = Notes
compare-left-fact = { $fact } is known in { $place } only, and says nothing here
compare-left-term = { $term } is a term of { $place } only: what the job says of { $fact } is taken as not known here
compare-answered-otherwise-page = Answered otherwise
compare-alike-page = Answered alike
compare-question = Question
compare-answer = Answer
compare-columns = Where and when
compare-kicker = One job side by side: bonding of gas piping
compare-columns-head = Places and dates
compare-columns-caption = What becomes of the job, and by which codes
compare-place = Place
compare-date = Date
compare-outcome = Outcome
compare-codes = Codes in force
compare-read = Rules last read
compare-facts = What the job says in every column
compare-silent-head = No rule known
compare-cautions = Cautions
compare-strictest-means = “Strictest” marks an answer that is as strict as every other that is ranked in its row, and stricter than some, by the order of its own question. An answer that is open, left to the authority, contradicted or not asked is not ranked.
compare-written-by = Written by Groundrule { $version }. Rules:
compare-csv-question = question
compare-csv-title = title
compare-csv-differs = differs
compare-csv-answer = answer
compare-csv-finding = finding
compare-csv-strictest = strictest
compare-csv-hangs-on = hangs on
compare-csv-texts = texts
compare-csv-unranked = not ranked ({ $why })
compare-show-alike = { $count ->
        [one] Show one question
       *[other] Show { $count } questions
    }
compare-finding-hangs-on = whether it is met hangs on { $facts }
compare-caption-beside = Each question with its answer in each column
compare-caption-grouped = Each answer with the places and days that give it
compare-caption-single = Each question with its answer
compare-idle-head = For a jumper that is put in
compare-for-all = What would satisfy every column
