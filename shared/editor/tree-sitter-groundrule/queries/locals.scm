; A sheet is one scope: names are known in all of it, whatever their order.
(source_file) @local.scope

(choice name: (name) @local.definition)
(subject name: (name) @local.definition)
(fact name: (name) @local.definition)
(list name: (name) @local.definition)
(record name: (name) @local.definition)
(question name: (name) @local.definition)
(definition name: (name) @local.definition)
(code name: (code_name) @local.definition)
(place name: (name) @local.definition)
(maker name: (name) @local.definition)
(supplier name: (name) @local.definition)

(name) @local.reference
(path) @local.reference
(code_name) @local.reference
