# What only the terminal says of a verdict; the rest stands with the sheet and the pages.
screen-job = Job
screen-file = File
screen-mend = mend: { $change }
screen-more-mends = and { $count } more (--why)
