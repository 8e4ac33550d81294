package markdown

import (
	"fmt"
	"strings"

	"github.com/alecthomas/chroma/v2"
)

// A Token is a sort of token. Its class is chroma's for the family; themes may set its colours anew.
type Token struct {
	Class       string // within .chroma
	Property    string // the custom property of CSS that holds its colour
	Light, Dark string // its colour on a light and on a dark page
	style       string // what else sets it apart, as CSS
}

// Tokens are all that are told apart. Names and punctuation keep the page's colour.
var Tokens = []Token{
	{Class: "k", Property: "--code-keyword", Light: "#8a2a5b", Dark: "#f0a6ca"},
	{Class: "n", Property: "--code-name", Light: "#1f5a8a", Dark: "#9cc9f0"},
	{Class: "s", Property: "--code-text", Light: "#3d641f", Dark: "#b5d98f"},
	{Class: "m", Property: "--code-number", Light: "#854800", Dark: "#f0c078"},
	{Class: "o", Property: "--code-operator", Light: "#6b4a2b", Dark: "#d9b99b"},
	{Class: "c", Property: "--code-comment", Light: "#5f6368", Dark: "#a9adb3", style: "font-style:italic"},
	{Class: "gh", Property: "--code-heading", Light: "#4a3f9f", Dark: "#bdb4ff", style: "font-weight:bold"},
	{Class: "gi", Property: "--code-inserted", Light: "#1f6438", Dark: "#8fe0a9"},
	{Class: "gd", Property: "--code-deleted", Light: "#9b2226", Dark: "#ff9e9e"},
}

// classOf returns the class of a token's type, "" where it is not set apart.
func classOf(t chroma.TokenType) string {
	switch {
	case t.InCategory(chroma.Keyword), t.InSubCategory(chroma.CommentPreproc), t == chroma.OperatorWord, t == chroma.OperatorReserved:
		return "k"
	case t.InSubCategory(chroma.NameFunction), t.InSubCategory(chroma.NameBuiltin):
		return "n"
	case t.InCategory(chroma.Name):
		switch t {
		case chroma.NameTag, chroma.NameAttribute, chroma.NameClass, chroma.NameDecorator, chroma.NameLabel, chroma.NameNamespace, chroma.NameException, chroma.NameEntity:
			return "n"
		case chroma.NameConstant, chroma.NameKeyword, chroma.NameOperator:
			return "k"
		}
		return ""
	case t.InSubCategory(chroma.LiteralNumber), t == chroma.LiteralDate:
		return "m"
	case t.InCategory(chroma.Literal):
		return "s"
	case t.InCategory(chroma.Operator):
		return "o"
	case t.InCategory(chroma.Comment):
		return "c"
	case t == chroma.GenericHeading, t == chroma.GenericSubheading:
		return "gh"
	case t == chroma.GenericInserted:
		return "gi"
	case t == chroma.GenericDeleted:
		return "gd"
	}
	return ""
}

// CSS returns the rules for code, each colour a custom property that a theme may set on :root.
func CSS() string {
	var light, dark, rules strings.Builder
	for _, t := range Tokens {
		fmt.Fprintf(&light, "%s:%s;", t.Property, t.Light)
		fmt.Fprintf(&dark, "%s:%s;", t.Property, t.Dark)
		fmt.Fprintf(&rules, ".chroma .%s{color:var(%s)", t.Class, t.Property)
		if t.style != "" {
			rules.WriteString(";" + t.style)
		}
		rules.WriteString("}\n")
	}
	return fmt.Sprintf(":where(:root){%s}\n@media (prefers-color-scheme:dark){:where(:root){%s}}\n%s.raw code{white-space:pre-wrap}\n", light.String(), dark.String(), rules.String())
}
