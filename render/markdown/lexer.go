package markdown

import (
	"strings"

	"github.com/alecthomas/chroma/v2"
)

// Lexer is a lexer of the note language. It is written by hand over the tables of
// package note, so that it knows every key and clause there is, and takes linear
// time over any text.
var Lexer chroma.Lexer = noteLexer{&chroma.Config{
	Name: "guidecoat", Aliases: []string{"guidecoat"}, MimeTypes: []string{"text/markdown"},
}}

type noteLexer struct{ config *chroma.Config }

func (l noteLexer) Config() *chroma.Config                         { return l.config }
func (l noteLexer) SetRegistry(*chroma.LexerRegistry) chroma.Lexer { return l }
func (l noteLexer) SetAnalyser(func(string) float32) chroma.Lexer  { return l }
func (l noteLexer) AnalyseText(string) float32                     { return 0 }

// Tokenise returns the tokens of a note.
func (l noteLexer) Tokenise(o *chroma.TokeniseOptions, text string) (chroma.Iterator, error) {
	if o == nil || o.EnsureLF {
		text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
	}
	return chroma.Literator(lex(text)...), nil
}

// lex returns the tokens of a note; one after the other they are the text.
func lex(text string) []chroma.Token {
	x := &lexer{text: text}
	x.front()
	x.body()
	return x.tokens
}

// A lexer cuts a text into tokens.
type lexer struct {
	text   string
	at     int // where the next token begins
	tokens []chroma.Token

	fence   string // what closes the open fenced block; "" outside of one
	scan    bool   // that block is a fault scan
	comment bool   // in a comment
	item    bool   // in the text of a task-list item
}

// emit makes a token of what stands up to end.
func (x *lexer) emit(t chroma.TokenType, end int) {
	if end <= x.at {
		return
	}
	value := x.text[x.at:end]
	x.at = end
	if k := len(x.tokens) - 1; k >= 0 && x.tokens[k].Type == t {
		if before := x.tokens[k].Value; len(before)+len(value) < 1<<10 { // joined, but never over and over
			x.tokens[k].Value = before + value
			return
		}
	}
	x.tokens = append(x.tokens, chroma.Token{Type: t, Value: value})
}

// line returns the line that begins at offset: where its words end, and where the
// next one begins.
func (x *lexer) line(offset int) (end, next int) {
	end = len(x.text)
	next = end
	if i := strings.IndexByte(x.text[offset:], '\n'); i >= 0 {
		end = offset + i
		next = end + 1
	}
	if end > offset && x.text[end-1] == '\r' {
		end--
	}
	return end, next
}

// spaces makes a token of white space that stands before end.
func (x *lexer) spaces(end int) {
	at := x.at
	for at < end && isSpace(x.text[at]) {
		at++
	}
	x.emit(chroma.Text, at)
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\r' }

// word returns where the word that begins at offset ends.
func (x *lexer) word(offset, end int) int {
	for offset < end && !isSpace(x.text[offset]) {
		offset++
	}
	return offset
}

// trimmed returns where the text between two offsets ends without white space behind it.
func (x *lexer) trimmed(start, end int) int {
	for end > start && isSpace(x.text[end-1]) {
		end--
	}
	return end
}
