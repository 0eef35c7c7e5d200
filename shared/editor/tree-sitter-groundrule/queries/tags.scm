; What a list of symbols shows.
(choice name: (name) @name) @definition.type
(subject name: (name) @name) @definition.type
(list name: (name) @name) @definition.type
(record name: (name) @name) @definition.type
(fact name: (name) @name) @definition.field
(question name: (name) @name) @definition.function
(definition name: (name) @name) @definition.function
(code name: (code_name) @name) @definition.module
(edition name: (edition_name) @name) @definition.module
(place name: (name) @name) @definition.module
(maker name: (name) @name) @definition.module
(supplier name: (name) @name) @definition.module
(instrument name: (number) @name) @definition.class
(section name: (number) @name) @definition.method
