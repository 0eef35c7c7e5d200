map-title = Map
map-of-editions = Editions in force on { $subject }, { $day }
map-of-answers = { $question }: the answer in each place, { $day }
map-show = Show
map-show-editions = Editions in force on
map-show-answers = Answers for the job
map-on = Day
map-within = Within
map-everywhere = all places
map-at = Which place is at
map-at-help = Latitude, longitude in degrees, such as -0.72, 0.60; empty asks for no point. The day stands for every date that the job leaves unsaid.
map-draw = Draw the map
map-wrong-day = write a day that exists as year, month and day, such as 2026-04-20
map-wrong-show = this is no subject and no question of the rules: choose one of the list
map-wrong-point = write latitude, then longitude, in degrees with a comma between, such as -0.72, 0.60
map-answers-of = Each place is asked about the job that this page carries, as if it were there; what the job does not say stays unknown.
map-found = Latitude { $latitude }, longitude { $longitude }
map-outside = This point lies outside every area that is known here.
map-on-border = This point lies on a border. Each of these places is beside it; ask which of them it is.
map-border-outside = On the other side no area is known here.
map-overlap = Areas overlap here. Ask which of these places it is.
map-rules-there = rules there
map-job-there = a job there
map-caption = Areas as the places publish them, not surveyed here: near a border ask the authority. Each place leads to its row of the table below.
map-not-settled = not settled
map-count = { $count ->
    [one] (one place)
   *[other] ({ $count } places)
 }
map-unnamed = No room on the map for the names of:
map-nothing = None of these places publishes a boundary that can be drawn.
map-left-out = { $count ->
    [one] One place more lies deeper; choose what it lies within to see it.
   *[other] { $count } places more lie deeper; choose what they lie within to see them.
 }
map-table = The same as a table
map-table-caption = Every place of the map, and those that cannot be drawn
map-place = Place
map-answer = Answer there
map-edition = Edition in force
map-by = By which texts
map-without = Places that cannot be drawn: no boundary, or one that cannot be used
map-law-not-known = not known: no job can be of this day there
map-no-edition = no edition is known to be in force
map-adopted = { $edition } by { $by }
map-adopted-where = { $edition } by { $by } where { $condition }
map-for-some-jobs = { $edition }, for some jobs
map-by-the-job = { $editions }, by the job
map-job-not-read = the job cannot be read there
