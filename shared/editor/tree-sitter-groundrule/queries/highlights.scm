; Names of captures are those of Neovim; the last pattern that fits a node wins.

(comment) @comment
(text) @string
(escape) @string.escape

[ "(" ")" "{" "}" ] @punctuation.bracket
"," @punctuation.delimiter

; Words of the author, the plain ones first.
(name) @variable
(path) @variable
(fact_path) @variable
(place_path) @module
(term) @constant
(code_name) @type
(year) @number
(number) @label
(finding) @label
(date) @number
(amount) @number
(figure_of_time) @number
(unit) @type.builtin
(yes_no) @boolean
(shape) @type

(choice name: (name) @type)
(subject name: (name) @type)
(list name: (name) @type)
(record name: (name) @type)
(attribute name: (name) @property)
(fact name: (name) @property)
(question name: (name) @function)
(definition name: (name) @function)
(demand question: (name) @function)
(expect_state question: (name) @function)
(expect_loosest question: (name) @function)
(place name: (name) @module)
(maker name: (name) @module)
(supplier name: (name) @module)
(job_entry (name) @type)
(entry_fact (name) @property)
(job_fact (path) @property)
(kind (name) @constant)
(status (name) @constant)
(expect_outcome (name) @constant)

; Words of the language.
[
  "choice" "subject" "fact" "list" "record" "question" "definition" "extend" "code" "edition" "place"
  "maker" "supplier" "instrument" "example" "job" "verdict"
] @keyword

[
  "section" "table" "amend" "replace" "add" "delete" "except" "reads" "renumber" "left" "out" "unread"
  "adopted" "adopts" "after" "also" "applies" "as" "ask" "asked" "at" "be" "beside" "between" "bind"
  "boundary" "by" "caution" "ceiling" "choose" "chooses" "common" "contrary" "costs" "dates" "election"
  "every" "floor" "for" "force" "from" "gives" "governed" "here" "in" "instructions" "instruments" "its"
  "kind" "knowingly" "known" "ladder" "measures" "met" "must" "names" "never" "newest" "note" "nothing"
  "numbered" "of" "office" "on" "only" "open" "ours" "own" "per" "practice" "preempts" "presumed"
  "prevails" "published" "quantity" "read" "refer" "reference" "repeals" "revises" "say" "several"
  "silent" "status" "summary" "suspends" "text" "the" "through" "to" "conflict" "referred" "outcome"
  "advised" "anyone" "anything" "limit" "pending"
] @keyword

[ "where" "with" ] @keyword.conditional
(except_where "except where" @keyword.conditional)
[ (memory) (otherwise) ] @keyword
[ "and" "any" "all" "before" "includes" "is" "least" "most" "no" "not" "or" "over" "under" "within" ] @keyword.operator
[ "none" "unknown" ] @constant.builtin
