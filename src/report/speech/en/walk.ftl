walk-greeting = One question at a time, and only those that can still change an answer. Answer with a name, its beginning or its number; ? where it is not known.
walk-greeting-keys = Also: back, why, list, change, drop, save, done, stop; help tells what they do.
walk-help-answer = An answer: a name, its beginning, its number in the list, a figure, a date, yes or no.
walk-help-unknown = ? : it is not known. The verdict then says what hangs on it. Only the place has to be named.
walk-help-back = back : the last answer is taken back, and the question put again.
walk-help-why = why : every answer that could change, with the rules that wait for this; why all : also what was set aside.
walk-help-list = list : what was said so far, numbered.
walk-help-change = change 3, change jumper.length : another answer to what was said, by its number in the list or its name.
walk-help-drop = drop run 2 : the second entry of the list `run` is taken out.
walk-help-save = save FILE : writes the job sheet so far, and goes on.
walk-help-done = done : the verdict on what is known now, and the job sheet.
walk-help-stop = stop : the job sheet so far, without a verdict. The end of the input and Ctrl-C do the same.
walk-head = Question { $number }.
walk-left = { $left } things still matter.
walk-part-own = You can know this { $when }.
walk-part-other = For the { $who } to say: ask, or answer ? for now.
walk-or = {" "}or{" "}
walk-who-contractor = contractor
walk-who-electrician = electrician
walk-who-inspector = inspector
walk-who-owner = owner
walk-when-bid = at the bid
walk-when-permit = at the permit
walk-when-rough = at rough-in
walk-when-final = at the final inspection
walk-when-other = at { $when }
walk-title-place = Place
walk-title-of-record = { $record } – { $title }
walk-title-of-entry = { $list } { $number } – { $title }
walk-entry = { $list }, number { $number } of { $all }
walk-entries = { $count ->
    [one] { $count } entry
   *[other] { $count } entries
}
walk-entries-and-others = { $count ->
    [one] { $count } entry, and perhaps others
   *[other] { $count } entries, and perhaps others
}
walk-ask-place = Where is the job?
walk-ask-entries = How many of these are there: { $list }?
walk-ask-further = How many are there besides the { $known } named so far: { $list }?
walk-hint-place = the name of a town, county or state, or its beginning, which is then confirmed by its number; list shows the places that are known
walk-hint-yes-no = yes or no, or ? where it is not known
walk-hint-date = a date such as 2024-03-01, today, none where there is none, or ? where it is not known
walk-hint-count = a whole number, or ? where it is not known
walk-hint-gauge = a wire size such as 6 AWG, 1/0 AWG, 250 kcmil or 16 mm2, or ? where it is not known; a bare 6 is 6 AWG
walk-hint-quantity = a figure such as 10 { $unit }, or ? where it is not known; a bare figure is in { $unit }
walk-hint-name = a name, none where there is none to name, or ? where it is not known
walk-hint-known-name = one of these, any other name, none where there is none to name, or ? where it is not known
walk-hint-choice = one of these by number, name or beginning, or ? where it is not known
walk-hint-several = any of these, with commas between them, none where there are none, or ? where it is not known
walk-hint-entries = a number, none, 2+ for two and perhaps others, or ? where nothing is known; each is then asked by itself
walk-hint-further = a number, none, or ? where nothing is known of others
walk-now = The job says: { $value }. An empty line leaves it so.
walk-now-unknown = So far it is not known. An empty line leaves it so.
walk-why = { $count ->
    [one] It is asked because an answer hangs on it:
   *[other] It is asked because { $count } answers hang on it:
}
walk-why-governed = It decides whether a code reaches the job at all: { $subjects }.
walk-why-others = { $count ->
    [one] and one other; why tells all
   *[other] and { $count } others; why tells all
}
walk-why-stands-on = stands on { $texts }
walk-why-and-texts = ; and { $count } more
walk-why-more = why all tells also what is weaker and what was set aside.
walk-why-nothing = No answer hangs on it now.
walk-change-between = { $question }: { $low }, or { $high }
walk-change-met = { $question }: { $answer }; open is whether the job does it
walk-change-refer = , or left to the authority
walk-not-known = not known
walk-idle = {" "}(changes nothing now)
walk-list-change = change and a number gives another answer.
walk-noted = { $title }: { $value }.
walk-dropped = Taken out.
walk-back-none = There is no answer to take back.
walk-back = Taken back.
walk-change-how = Write change and a number of the list, or a name: change 3, change jumper.length.
walk-change-none = Nothing that was said or is asked is named `{ $what }`. list shows what was said, with numbers.
walk-drop-none = There is no such entry. Write drop, the name of a list and a number, such as drop run 2.
walk-moved = What is not known at the new place was taken out: { $facts }.
walk-wrong-empty = Nothing was answered.
walk-wrong-number = `{ $typed }` is no number of the list: it goes from 1 to { $most }.
walk-wrong-several = Several begin with `{ $typed }`; write more of one:
walk-wrong-place = No place is named `{ $typed }` in these rules.
walk-wrong-place-needed = Without a place no rules can be looked at.
walk-wrong-place-none = list shows the places that are known; --rules loads others.
walk-wrong-places = Several places are named `{ $typed }`; which one is it?
walk-wrong-near = Is one of these meant?
walk-wrong-count = `{ $typed }` is no number of entries.
walk-wrong-unread = `{ $typed }` does not fit here.
walk-wrong-because = That does not fit: { $reason }.
walk-refused-misplaced = That does not answer this question.
walk-save-where = In which file shall the job sheet be kept? An empty line prints it instead.
walk-saved = The job sheet was written to `{ $file }`.
walk-save-exists = `{ $file }` exists already. Name another file, or start again with --over.
walk-save-failed = `{ $file }` cannot be written: { $reason }.
walk-save-no-place = There is nothing to keep yet: the place is not known.
walk-ended = The input has ended. This is the job sheet so far; begin again with it to go on.
walk-stopped = This is the job sheet so far; begin again with it to go on.
walk-nothing-left = Nothing else can change an answer.
walk-sheet = The job sheet:
walk-no-place = without a place there is no verdict
