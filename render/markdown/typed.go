package markdown

import (
	"guidecoat/journal/note"
	"guidecoat/journal/source"

	"github.com/alecthomas/chroma/v2"
)

// noteLanguage is the name under which a block of code shows lines of notes.
const noteLanguage = "guidecoat"

// tokenOf is what chroma calls the parts of a note.
var tokenOf = map[note.Sort]chroma.TokenType{
	note.KeyPart: chroma.NameTag, note.NamePart: chroma.NameLabel, note.WordPart: chroma.Keyword, note.ChoicePart: chroma.NameConstant, note.FigurePart: chroma.LiteralNumber,
	note.QuotePart: chroma.LiteralString, note.HeadingPart: chroma.GenericHeading, note.RemarkPart: chroma.Comment,
}

// typedTokens returns the tokens of a note as the reader of notes understood it; one
// after the other they are what the file holds.
func typedTokens(f *source.File) []chroma.Token {
	var list []chroma.Token
	at := int32(0)
	text := func(end int32) {
		if at < end {
			list = append(list, chroma.Token{Type: chroma.Text, Value: string(f.Data[at:end])})
		}
	}
	for _, p := range note.PartsOf(f) {
		text(p.Start)
		list, at = append(list, chroma.Token{Type: tokenOf[p.Sort], Value: p.Text()}), p.End
	}
	text(int32(len(f.Data)))
	return list
}
