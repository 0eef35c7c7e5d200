# What only the terminal says of a verdict; the rest stands with the sheet and the pages.
screen-job = Trabajo
screen-file = Archivo
screen-mend = remedio: { $change }
screen-more-mends = y { $count } más (--why)
