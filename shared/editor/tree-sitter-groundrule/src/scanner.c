/* A unit stands on the line of its figure: after `3` in `at least 3 and …` there is none.
 * What is a unit there is said by `unit` in grammar/rule.pest: a word that is known as one,
 * or any word that is not reserved and ends the line, or stands before , ) } #.
 *
 * A text that the end of its line finds open ends there, with a token that is empty. */
#include "tree_sitter/parser.h"

#include <string.h>

enum Token { UNIT, UNCLOSED, MENDING };

/* Longer than any known unit and any reserved word. */
enum { LONGEST = 16 };

static const char *const KNOWN[] = {
    "AWG", "kcmil", "mm2", "mm", "cm", "ft", "feet", "foot", "inches", "inch", "km", "meters", "m2", "m",
    "yd", "sq-ft", "sq-m", "amps", "amperes", "A", "volts", "V", "kV", "ohm", "kW", "kPa", "Pa", "psi",
    "W", "Btu-h", "percent", "dollars", "days", "day", "weeks", "months", "month", "years", "year", NULL,
};

static const char *const RESERVED[] = {
    "yes", "within", "with", "where", "verdict", "unknown", "under", "through", "table", "supplier",
    "subject", "reference", "record", "question", "place", "per", "over", "outcome", "or", "only", "on", "of",
    "not", "none", "no", "maker", "list", "job", "is", "instrument", "includes", "in", "gives", "from",
    "for", "fact", "extend", "example", "edition", "definition", "code", "choice", "by", "before", "at",
    "as", "any", "and", "all", NULL,
};

static bool among(const char *const *words, const char *word) {
    for (; *words != NULL; words++) {
        if (strcmp(*words, word) == 0) return true;
    }
    return false;
}

static bool letter(int32_t c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

static bool in_word(int32_t c) { return letter(c) || (c >= '0' && c <= '9') || c == '-' || c == '_'; }

void *tree_sitter_groundrule_external_scanner_create(void) { return NULL; }

void tree_sitter_groundrule_external_scanner_destroy(void *payload) { (void)payload; }

unsigned tree_sitter_groundrule_external_scanner_serialize(void *payload, char *buffer) {
    (void)payload;
    (void)buffer;
    return 0;
}

void tree_sitter_groundrule_external_scanner_deserialize(void *payload, const char *buffer, unsigned length) {
    (void)payload;
    (void)buffer;
    (void)length;
}

bool tree_sitter_groundrule_external_scanner_scan(void *payload, TSLexer *lexer, const bool *valid) {
    (void)payload;
    if (valid[MENDING]) return false;
    if (valid[UNCLOSED]) {
        lexer->result_symbol = UNCLOSED;
        return lexer->lookahead == '\n' || lexer->eof(lexer);
    }
    if (!valid[UNIT]) return false;

    bool apart = false;
    while (lexer->lookahead == ' ' || lexer->lookahead == '\t') {
        lexer->advance(lexer, true);
        apart = true;
    }
    if (!apart || !letter(lexer->lookahead)) return false;

    char word[LONGEST] = {0};
    unsigned length = 0;
    while (in_word(lexer->lookahead)) {
        if (length + 1 < LONGEST) word[length] = (char)lexer->lookahead;
        length++;
        lexer->advance(lexer, false);
    }
    lexer->mark_end(lexer);
    lexer->result_symbol = UNIT;
    bool whole = length < LONGEST;
    if (whole && among(KNOWN, word)) return true;
    if (whole && among(RESERVED, word)) return false;
    while (lexer->lookahead == ' ' || lexer->lookahead == '\t') lexer->advance(lexer, false);
    switch (lexer->lookahead) {
        case '\n': case '\r': case '#': case ',': case ')': case '}': return true;
        default: return lexer->eof(lexer);
    }
}
