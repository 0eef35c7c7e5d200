/* Reads a sheet with the generated parser and prints what it saw, for the tests.
 *
 *     reader tree            the tree of the sheet on standard input
 *     reader insert AT N     the same, of a sheet into which the N units at AT were put later
 *     reader query FILE      what the query in FILE captures in it
 *
 * The sheet comes in UTF-16, so that every place is one of the JavaScript that asks. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <tree_sitter/api.h>

const TSLanguage *tree_sitter_groundrule(void);

typedef struct {
    char *bytes;
    uint32_t size;
} Text;

static void fail(const char *why, const char *what) {
    fprintf(stderr, "%s: %s\n", why, what);
    exit(1);
}

static Text whole(FILE *from) {
    Text text = {NULL, 0};
    size_t room = 0;
    for (;;) {
        if (text.size == room) {
            room = room == 0 ? 1 << 16 : room * 2;
            text.bytes = realloc(text.bytes, room);
            if (text.bytes == NULL) fail("no memory", "for the sheet");
        }
        size_t got = fread(text.bytes + text.size, 1, room - text.size, from);
        if (got == 0) return text;
        text.size += (uint32_t)got;
    }
}

static TSPoint point(Text text, uint32_t end) {
    TSPoint point = {0, 0};
    for (uint32_t at = 0; at < end; at += 2) {
        bool line = text.bytes[at] == '\n' && text.bytes[at + 1] == 0;
        point.column = line ? 0 : point.column + 2;
        if (line) point.row++;
    }
    return point;
}

static TSTree *parse(TSParser *parser, const TSTree *before, Text text) {
    TSTree *tree = ts_parser_parse_string_encoding(parser, before, text.bytes, text.size, TSInputEncodingUTF16LE);
    if (tree == NULL) fail("no tree", "the parser gave up");
    return tree;
}

static void print(TSTree *tree) {
    TSTreeCursor cursor = ts_tree_cursor_new(ts_tree_root_node(tree));
    for (;;) {
        TSNode node = ts_tree_cursor_current_node(&cursor);
        const char *field = ts_tree_cursor_current_field_name(&cursor);
        TSPoint start = ts_node_start_point(node);
        printf("%u\t%u\t%u\t%u\t%u\t%d\t%d\t%s\t%s\n", ts_tree_cursor_current_depth(&cursor),
               ts_node_start_byte(node) / 2, ts_node_end_byte(node) / 2, start.row, start.column / 2,
               ts_node_is_named(node), ts_node_is_error(node) || ts_node_is_missing(node), field ? field : "",
               ts_node_type(node));
        if (ts_tree_cursor_goto_first_child(&cursor)) continue;
        while (!ts_tree_cursor_goto_next_sibling(&cursor)) {
            if (!ts_tree_cursor_goto_parent(&cursor)) return;
        }
    }
}

static void captures(TSTree *tree, const char *file) {
    FILE *from = fopen(file, "r");
    if (from == NULL) fail("not there", file);
    Text source = whole(from);
    uint32_t at = 0;
    TSQueryError error = TSQueryErrorNone;
    TSQuery *query = ts_query_new(tree_sitter_groundrule(), source.bytes, source.size, &at, &error);
    if (query == NULL) {
        fprintf(stderr, "%s: error %d at %u: %.40s\n", file, error, at, source.bytes + at);
        exit(1);
    }
    TSQueryCursor *cursor = ts_query_cursor_new();
    ts_query_cursor_exec(cursor, query, ts_tree_root_node(tree));
    TSQueryMatch match;
    uint32_t index = 0;
    while (ts_query_cursor_next_capture(cursor, &match, &index)) {
        TSQueryCapture capture = match.captures[index];
        uint32_t length = 0;
        const char *name = ts_query_capture_name_for_id(query, capture.index, &length);
        printf("%u\t%u\t%.*s\n", ts_node_start_byte(capture.node) / 2, ts_node_end_byte(capture.node) / 2, (int)length, name);
    }
}

int main(int count, char **arguments) {
    TSParser *parser = ts_parser_new();
    if (!ts_parser_set_language(parser, tree_sitter_groundrule())) fail("the parser", "was made for another tree-sitter");
    Text text = whole(stdin);
    if (count == 2 && strcmp(arguments[1], "tree") == 0) {
        print(parse(parser, NULL, text));
    } else if (count == 3 && strcmp(arguments[1], "query") == 0) {
        captures(parse(parser, NULL, text), arguments[2]);
    } else if (count == 4 && strcmp(arguments[1], "insert") == 0) {
        uint32_t at = 2 * (uint32_t)atoi(arguments[2]);
        uint32_t added = 2 * (uint32_t)atoi(arguments[3]);
        if (at + added > text.size) fail("outside of the sheet", arguments[2]);
        Text old = {malloc(text.size + 1), text.size - added};
        if (old.bytes == NULL) fail("no memory", "for the sheet");
        memcpy(old.bytes, text.bytes, at);
        memcpy(old.bytes + at, text.bytes + at + added, old.size - at);
        TSTree *before = parse(parser, NULL, old);
        TSInputEdit edit = {at, at, at + added, point(text, at), point(text, at), point(text, at + added)};
        ts_tree_edit(before, &edit);
        print(parse(parser, before, text));
    } else {
        fail("wrong usage", "tree, insert AT N or query FILE");
    }
    return 0;
}
