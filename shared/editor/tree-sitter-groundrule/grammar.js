/**
 * The language of Groundrule's rule files and job sheets, for editors.
 *
 * It follows `grammar/rule.pest` rule by rule; the program reads with that one. Where a
 * sheet is wrong, the program says so with place and help; this grammar only has to keep
 * the colors of the rest. Habits:
 *
 * - A word that is not reserved is taken for a word of the language only where the grammar
 *   can take it; elsewhere it is a name.
 * - The tokens of numbers, codes, marks and dates overlap. In a tie the one that stands
 *   first in this file wins, so their order at the end of the file matters.
 * - A unit stands on the line of its figure. That needs a look ahead, in `src/scanner.c`.
 * - A text that is not closed ends with its line, as `unclosed`, and spoils nothing behind it.
 */
/// <reference types="tree-sitter-cli/dsl" />

const PREC = { or: 1, and: 2, not: 3 };

/** The words that are no names, as in the rule `reserved` of the pest grammar. */
const RESERVED = [
  ...["all", "and", "any", "as", "at", "before", "by", "choice", "code", "definition", "edition", "example"],
  ...["extend", "fact", "for", "from", "gives", "in", "includes", "instrument", "is", "job", "list", "maker"],
  ...["no", "none", "not", "of", "on", "only", "or", "outcome", "over", "per", "place", "question", "record"],
  ...["reference", "subject", "supplier", "table", "through", "under", "unknown", "verdict", "where", "with"],
  ...["within", "yes"],
];

/** Words between commas. */
function commas(rule) {
  return seq(rule, repeat(seq(",", rule)));
}

// What begins a clause where a demand may stand.
const CLAUSE_WORDS = [
  ...["summary", "read", "common", "note", "refer", "instructions", "knowingly", "pending", "advised"],
  ...["section", "replace", "add", "delete", "except", "reads", "renumber", "left", "unread"],
  ...["kind", "adopted", "status", "applies", "adopts", "election", "amend", "preempts", "floor", "ceiling"],
  ...["prevails", "repeals", "suspends"],
];

module.exports = grammar({
  name: "groundrule",

  word: ($) => $._word,
  reserved: { global: () => RESERVED },
  extras: ($) => [/[ \t\r\n]/, $.comment],
  // The last stands nowhere: that it is asked for tells the scanner that an error is being mended.
  externals: ($) => [$.unit, $.unclosed, $._mending],
  inline: ($) => [$._title, $._names, $._terms, $._values, $._on_names],
  conflicts: ($) => [
    // A file that begins with `place NAME` may hold rules or be a job sheet.
    [$.name, $.place_path],
    // Behind the last path of a condition `over` may begin a row of a table, `at` an order.
    [$._cond, $.test],
    // A word behind an instrument is its section's number, or the next question.
    [$.by_authority],
    // A word behind an attribute is a clause of it, or the next attribute.
    [$.attribute],
    // What stands behind a section's lines may be one more of them, or a clause of what holds it.
    [$.section],
    [$.patch],
  ],

  rules: {
    // ------------------------------------------------------------ a file
    source_file: ($) => choice(repeat($._item), $.sheet),
    sheet: ($) => choice("job", seq(optional("job"), repeat1($._job_line))),

    _item: ($) =>
      choice(
        $.choice,
        $.subject,
        $.fact,
        $.list,
        $.record,
        $.question,
        $.definition,
        $.extend,
        $.code,
        $.edition,
        $.place,
        $.maker,
        $.supplier,
        $.instrument,
        $.example,
      ),

    // ------------------------------------------------------------ the glossary
    choice: ($) => seq("choice", field("name", $.name), optional($._title), repeat($.term_line)),
    term_line: ($) => seq(field("name", $.term), repeat(choice($._title, $.under_term))),
    under_term: ($) => seq("under", $.term),
    extend: ($) => seq("extend", $.name, "in", $._place_name, repeat($.term_line)),

    subject: ($) => seq("subject", field("name", $.name), repeat(choice($._title, $.governed))),
    governed: () => seq("must", "be", "governed"),

    fact: ($) => seq("fact", field("name", $.name), $._shape, repeat($._fact_clause)),
    list: ($) => seq("list", field("name", $.name), repeat(choice($._title, $.in_place)), repeat($.attribute)),
    record: ($) => seq("record", field("name", $.name), repeat(choice($._title, $.in_place)), repeat($.attribute)),
    attribute: ($) =>
      seq(field("name", choice($.name, alias($._fact_word, $.name))), $._shape, repeat($._fact_clause)),
    // What begins a clause of a fact, and may be the name of an attribute.
    _fact_word: () => choice("ask", "known", "ours", "presumed", "never", "dates", "chooses", "names"),

    _shape: ($) => choice($.quantity, $.several, $.shape),
    quantity: ($) => seq("quantity", $._unit_word),
    several: ($) => seq("several", $.name),
    shape: ($) => choice("code", $._word),

    _fact_clause: ($) =>
      choice(
        $._title,
        $.ask,
        $.known,
        $.presumed,
        $.never_before,
        $.in_place,
        $.ours,
        $.dates_instruments,
        $.chooses,
        $.names_supplier,
      ),
    ask: ($) => seq("ask", $._title),
    known: ($) => prec.right(seq("known", "to", $._names, optional(seq("at", $.name)))),
    ours: () => seq("ours", "to", "choose"),
    presumed: ($) => seq("presumed", "where", $._cond),
    never_before: ($) => seq("never", "before", $.path),
    in_place: ($) => seq("in", $._place_name),
    dates_instruments: () => seq("dates", "instruments"),
    chooses: () => seq("chooses", "the", choice("text", "code")),
    names_supplier: () => seq("names", "the", "supplier"),

    question: ($) => seq("question", field("name", $.name), repeat($._question_clause)),
    _question_clause: ($) =>
      choice(
        $._title,
        $._on_names,
        $.ladder,
        $.order,
        $.per,
        $.measures,
        $.met,
        $.asked,
        $.costs,
        $.contrary,
        $.caution,
        $.in_place,
      ),
    ladder: ($) => seq("ladder", $._terms),
    order: ($) =>
      choice(seq("at", choice("least", "most"), $._unit_word), seq("only", $.name), seq("all", "of", $.name)),
    per: ($) => seq("per", $.path),
    measures: ($) => seq("measures", $.path),
    met: ($) => seq("met", choice("never", seq("where", $._cond))),
    asked: ($) => seq("asked", "where", $._cond),
    costs: ($) => seq("costs", $._title),
    contrary: ($) => seq("contrary", "to", $._names),
    caution: ($) => seq("caution", $._title),

    definition: ($) =>
      prec.right(
        seq(
          "definition",
          field("name", $.name),
          repeat(choice($._title, $._provenance)),
          $._cond,
          optional($._provenance),
        ),
      ),

    // ------------------------------------------------------------ codes and their text
    code: ($) => seq("code", field("name", $.code_name), repeat(choice($._title, $._on_names, $.knowingly))),
    edition: ($) =>
      prec.right(seq("edition", field("name", $.edition_name), repeat($._edition_head), repeat($._text_clause))),
    edition_name: ($) => seq($.code_name, $.year),
    _edition_head: ($) => choice($.published, $.revises, $.text_not_here, $._provenance, $.knowingly),
    published: ($) => seq("published", $.date),
    revises: ($) => seq("revises", $.edition_name),
    text_not_here: () => seq("text", "not", "here"),

    _text_clause: ($) => choice($.section, $.table, $.patch, $.renumber, $.definition, $.left_out, $.unread),
    renumber: ($) => seq("renumber", $.number, "to", $.number),
    left_out: ($) => seq("left", "out", $.number, $._title),
    unread: ($) => seq("unread", $.number, optional($._on_names)),

    section: ($) => seq("section", field("name", $.number), repeat($._section_head), repeat($._body_line)),
    _section_head: ($) => choice($._title, $._on_names, $.extract),
    extract: ($) => seq("as", $.edition_name, $.number),

    table: ($) =>
      prec.right(
        seq("table", field("name", $.number), repeat($._section_head), $.table_head, repeat($._table_line)),
      ),
    table_head: ($) =>
      seq(
        "by",
        $.path,
        optional(seq("per", $.path, $._terms)),
        "gives",
        $.name,
        optional(seq("for", $._terms)),
      ),
    _table_line: ($) => choice($.row, $.summary, $.where, $.except_where, $._provenance, $.note, $.knowingly),
    row: ($) => seq(choice("through", "over"), $._values, "gives", $._values),

    patch: ($) =>
      seq(
        choice("replace", "add", "delete", "except", "reads"),
        optional("table"),
        field("name", $.number),
        optional(seq("and", "under")),
        repeat($._section_head),
        choice(seq($.table_head, repeat1($._table_line)), repeat($._body_line)),
      ),

    _body_line: ($) => choice($.summary, $.where, $.except_where, $._kept, $.note, $.refer, $.bind, $.demand),
    // Such a clause belongs to the innermost that can have it.
    _kept: ($) => prec.dynamic(1, choice($._provenance, $.knowingly)),
    summary: ($) => seq("summary", $._title),
    where: ($) => seq("where", $._cond),
    except_where: ($) => seq(alias($._except_where, "except where"), $._cond),

    _provenance: ($) => choice($.read, $.memory, $.practice),
    // Without a day the program complains; here it is what a text left open leaves of the line.
    read: ($) => prec.right(seq("read", $._title, optional(seq("on", $.date)))),
    memory: ($) => alias($._from_memory, "from memory"),
    practice: () => seq("common", "practice"),

    // Keeps a finding of `proofread` on purpose.
    knowingly: ($) => seq("knowingly", alias($._capitals, $.finding), $._title),

    // ------------------------------------------------------------ places and issuers
    place: ($) => prec.right(seq("place", field("name", $.name), repeat($._place_clause))),
    _place_clause: ($) =>
      choice(
        $._title,
        $.within_place,
        $.also,
        $.known_as,
        $.office,
        $._provenance,
        $.nothing,
        $.boundary,
        $.dates_by,
        $.knowingly,
      ),
    within_place: ($) => seq("within", $._place_name),
    also: ($) => seq("also", $._title),
    known_as: ($) => seq("known", "as", $.name, $.number),
    office: ($) => seq("office", $._title),
    nothing: ($) => prec.right(seq("nothing", "of", "its", "own", optional($._on_names), optional($._provenance))),
    boundary: ($) => seq("boundary", $._title),
    dates_by: ($) => seq("dates", "by", $.path),

    maker: ($) => seq("maker", field("name", $.name), repeat($._issuer_clause)),
    supplier: ($) => seq("supplier", field("name", $.name), repeat($._issuer_clause)),
    _issuer_clause: ($) => choice($._title, $._provenance, $.dates_by, $.knowingly),

    _place_name: ($) => choice($.text, $.place_path),

    // ------------------------------------------------------------ instruments
    instrument: ($) => seq("instrument", field("name", $.number), repeat($._instrument_clause)),
    _instrument_clause: ($) =>
      choice(
        $._title,
        $.of_issuer,
        $.kind,
        $.adopted,
        $.in_force,
        $.status,
        $.applies,
        $._provenance,
        $.adopts,
        $.election,
        $.amend,
        $.section,
        $.table,
        $.power,
        $.prevails,
        $.repeals,
        $.suspends,
        $.knowingly,
      ),
    of_issuer: ($) => seq("of", $._place_name),
    kind: ($) => seq("kind", $.name),
    adopted: ($) => seq("adopted", $.date),
    status: ($) => seq("status", $.name),
    applies: ($) => seq("applies", "where", $._cond),

    in_force: ($) => prec.right(seq("in", "force", repeat1(choice($.force_from, $.force_through, $.by_fact)))),
    force_from: ($) =>
      seq("from", choice(seq("between", $.date, "and", $.date), "unknown", $.date, seq($.delay, "after", $.date))),
    force_through: ($) => seq("through", choice("unknown", $.date)),
    by_fact: ($) => seq("by", $.path),
    delay: ($) => seq($.figure_of_time, $.unit),
    figure_of_time: ($) => $._digits,

    adopts: ($) => seq("adopts", $._adopted_text, repeat(seq("or", $._adopted_text)), repeat($._adopts_clause)),
    _adopted_text: ($) => choice($.newest, $.edition_name),
    newest: ($) => seq($.code_name, "newest", optional(seq("after", $.delay))),
    _adopts_clause: ($) => choice($.for_names, $.where, $.otherwise, $.as_published, $.beside),
    for_names: ($) => seq("for", $._names),
    otherwise: () => "otherwise",
    as_published: () => seq("as", "published"),
    beside: ($) => seq("beside", commas($.code_name)),

    election: ($) =>
      seq("election", optional(seq("from", $.date)), "through", $.date, optional($.by_fact)),

    amend: ($) => prec.right(seq("amend", $._amend_target, repeat($._amend_clause))),
    _amend_target: ($) =>
      choice(
        seq($.code_name, "any", optional(seq("numbered", "as", "in", $.year))),
        $.edition_name,
        prec.right(seq($.number, optional($.of_issuer))),
      ),
    _amend_clause: ($) => choice($.patch, $.renumber, $.left_out, $.unread, $.knowingly),

    power: ($) => seq(choice("preempts", "floor", "ceiling"), $._names, optional($.where)),
    prevails: ($) =>
      seq("prevails", "over", commas($._layer), "on", choice(seq("every", "question"), $._names)),
    _layer: ($) => choice($.code_name, "instructions"),

    repeals: ($) => prec.right(seq("repeals", $.number, optional($.of_issuer))),
    suspends: ($) => prec.right(seq("suspends", $.number, optional($.of_issuer), optional($.number))),

    // ------------------------------------------------------------ conditions
    _cond: ($) => choice($.or, $.and, $.not, $.group, $.entries, $.say, $.test, $._fact_name),
    or: ($) => prec.left(PREC.or, seq($._cond, "or", $._cond)),
    and: ($) => prec.left(PREC.and, seq($._cond, "and", $._cond)),
    not: ($) => prec(PREC.not, seq("not", $._cond)),
    group: ($) => seq("(", $._cond, ")"),
    entries: ($) => seq(choice("any", "no"), $.name, optional(seq("with", $.group))),
    say: ($) => seq("instructions", "say", $.demand),

    _fact_name: ($) => choice($.path, alias("instructions", $.path)),
    test: ($) =>
      seq(
        $._fact_name,
        choice(
          seq("is", optional("not"), choice($._value, seq("any", "of", $._values))),
          seq("at", choice("least", "most"), $._value),
          seq("includes", choice($._value, seq("any", "of", $._values))),
          seq(choice("over", "under"), $._value),
          seq(choice("before", "from"), $.date),
          seq("within", $.delay, "after", $.path),
        ),
      ),

    // ------------------------------------------------------------ demands
    note: ($) => seq("note", $._title),
    refer: ($) => seq("refer", $._names, $._title),
    bind: ($) => seq("instructions", "bind", "on", $._names),
    demand: ($) => seq(field("question", $._question_name), $._answer),
    // What begins a clause where a demand may stand may be the name of a question too.
    _question_name: ($) => choice($.name, ...CLAUSE_WORDS.map((word) => alias(word, $.name))),

    _answer: ($) => choice($.answer_is, $.answer_limit, $.answer_set),
    answer_is: ($) => seq("is", $.term),
    answer_limit: ($) => seq("at", choice("least", "most"), choice($._limits, $.by_table)),
    _limits: ($) => prec.right(seq($._limit, repeat(seq(",", choice($._limit, $.term))))),
    _limit: ($) => prec.right(seq($.figure, optional(seq("for", $.term)))),
    by_table: ($) =>
      seq(
        "by",
        "table",
        choice(
          $.number,
          seq($.code_name, alias($._table_number, $.number)),
          seq($.code_name, $.year, alias($._table_number, $.number)),
        ),
      ),
    answer_set: ($) => seq(choice("only", seq("none", "of"), seq("all", "of")), $._terms),

    // ------------------------------------------------------------ jobs and examples
    example: ($) => seq("example", field("name", $._title), repeat($.knowingly), $.job, $.verdict),
    job: ($) => seq("job", repeat($._job_line)),
    verdict: ($) => seq("verdict", repeat($._expect_line)),
    _job_line: ($) => choice($.job_place, $.job_reference, $.job_entry, $.job_fact),
    job_place: ($) => seq("place", $._place_name),
    job_reference: ($) => seq("reference", $._title),
    job_entry: ($) => seq($.name, "{", repeat($.entry_fact), "}"),
    entry_fact: ($) => seq($.name, $._job_value),
    job_fact: ($) => seq($.path, $._job_value),
    _job_value: ($) => choice("none", "unknown", commas(choice($.text, $._value))),

    _expect_line: ($) =>
      choice(
        $.expect_outcome,
        $.expect_note,
        $.expect_pending,
        $.expect_state,
        $.expect_loosest,
        $.expect_demand,
        $.expect_advice,
      ),
    expect_outcome: ($) => seq("outcome", $.name),
    expect_state: ($) =>
      seq(
        field("question", $._question_name),
        choice("silent", "open", seq("open", "on", $.fact_path), "referred", "conflict", "met", seq("not", choice("met", "asked"))),
      ),
    expect_note: ($) => seq("note", $.by_authority),
    expect_pending: ($) => seq("pending", $.number),
    expect_loosest: ($) =>
      seq(field("question", $._question_name), choice(seq("no", "limit"), "anyone", "anything", "nothing")),
    expect_advice: ($) => seq("advised", $.demand, optional($.by_authority)),
    expect_demand: ($) => seq($.demand, optional($.by_authority)),
    by_authority: ($) => seq("by", $.number, optional($.number)),

    // ------------------------------------------------------------ lists and values
    _names: ($) => commas($.name),
    _terms: ($) => commas($.term),
    _values: ($) => commas($._value),
    _on_names: ($) => seq("on", $._names),
    _title: ($) => $.text,

    _value: ($) => choice($.date, $.figure, $.yes_no, $.term),
    figure: ($) => prec.right(seq($.amount, optional($.unit))),
    yes_no: () => choice("yes", "no"),

    // ------------------------------------------------------------ words
    name: ($) => $._word,
    term: ($) => choice($._word, $._capitals, $._mark),
    path: ($) => choice($._word, $._dotted),
    fact_path: ($) => choice($._word, $._dotted, $._indexed),
    place_path: ($) => choice($._word, $._slashed),
    code_name: ($) => $._capitals,
    year: ($) => $._digits,
    amount: ($) => choice($._digits, $._fraction),
    number: ($) => choice($._word, $._table_number),
    // A number where a name may follow: one in small letters alone would be that name.
    _table_number: ($) => choice($._digits, $._capitals, $._run),
    _unit_word: ($) => alias(choice($._word, $._capitals, $._mark), $.unit),

    text: ($) => seq('"', repeat(choice($._text_part, $.escape)), choice(token.immediate('"'), $.unclosed)),
    _text_part: () => token.immediate(prec(1, /[^"\\\n]+/)),
    escape: () => token.immediate(/\\["\\]/),

    comment: () => /#[^\n]*/,

    // Two words at once, so that `from 2020-01-01` and `except 4.1` need no look ahead.
    _from_memory: () => /from[ \t\r\n]+memory/,
    _except_where: () => /except[ \t\r\n]+where/,

    _word: () => /[a-z][a-z0-9-]*/,
    _digits: () => /[0-9]+/,
    _capitals: () => /[A-Z][A-Z0-9-]*/,
    date: () => /[0-9]+-[0-9]+-[0-9]+/,
    _fraction: () => /[0-9]+(\.[0-9]+)?(\/[0-9]+)?/,
    _dotted: () => /[a-z][a-z0-9-]*\.[a-z][a-z0-9-]*/,
    _indexed: () => /[a-z][a-z0-9-]*\[[0-9]*\](\.[a-z][a-z0-9-]*)?/,
    _slashed: () => /[a-z][a-z0-9-]*(\/[a-z][a-z0-9-]*)+/,
    _mark: () => /[A-Za-z][A-Za-z0-9_-]*(\.[A-Za-z0-9_-]+)*/,
    // Brackets close within the number; three deep is more than any code prints.
    _run: () =>
      /([0-9A-Z]([0-9A-Za-z.\/-]|\(([0-9A-Za-z.\/-]|\(([0-9A-Za-z.\/-]|\([0-9A-Za-z.\/-]+\))+\))+\))*|[a-z][0-9A-Za-z.\/-]*)/,
  },
});
