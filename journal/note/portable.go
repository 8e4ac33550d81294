package note

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"guidecoat/journal/source"

	meta "github.com/yuin/goldmark-meta"
	"github.com/yuin/goldmark/parser"
	"gopkg.in/yaml.v2"

	"github.com/shopspring/decimal"
)

// NotPortable is no mistake: the note is read by line, but a program that reads
// front matter as YAML would read it otherwise or not at all.
const NotPortable source.Flaw = "not-portable"

var yamlLine = regexp.MustCompile(`line (\d+): `)

// comparePortable records the first place where the YAML reading of the front
// matter, as goldmark-meta made it, differs from ours.
func (n *Note) comparePortable(pc parser.Context) {
	items, err := meta.TryGetItems(pc)
	if err != nil {
		span := n.File.Span(0, len("---"))
		if m := yamlLine.FindStringSubmatch(err.Error()); m != nil {
			line, _ := strconv.Atoi(m[1])
			span = n.lineSpan(line + 1) // YAML counts from below the fence
		}
		why := strings.TrimPrefix(yamlLine.ReplaceAllString(err.Error(), ""), "yaml: ")
		n.fault(source.Fault{Flaw: NotPortable, Span: span, Why: "they stop at it: " + strings.ReplaceAll(why, "\n", " ")})
		return
	}
	other := map[string]any{}
	for _, it := range items {
		other[fmt.Sprint(it.Key)] = it.Value
	}
	for i := range n.Fields {
		f := &n.Fields[i]
		value := other[f.Key]
		switch {
		case f.Repeated:
		case len(f.Entries) == 0 && f.Value.S != "":
			if got := yamlText(value); !sameReading(f.Value.S, got) {
				n.readOtherwise(f.Value, got)
				return
			}
		default:
			for j, got := range yamlEntries(value) {
				if j < len(f.Entries) && !f.Entries[j].Unusable && !sameReading(f.Entries[j].Text.S, got) {
					n.readOtherwise(f.Entries[j].Text, got)
					return
				}
			}
		}
	}
}

func (n *Note) readOtherwise(t Text, got string) {
	n.fault(source.Fault{Flaw: NotPortable, Span: t.Whole(), Word: t.S, Why: "they read it as \"" + got + "\""})
}

// lineSpan is the visible part of a line, counted from 1.
func (n *Note) lineSpan(line int) source.Span {
	at := 0
	for range line - 1 {
		_, at = cutLine(n.File.Data, at)
	}
	text, _ := cutLine(n.File.Data, at)
	start, end := trim(n.File.Data, at, at+len(text))
	return n.File.Span(start, end)
}

// yamlEntries flattens what YAML made of the lines below a key, one text a line.
func yamlEntries(v any) []string {
	var out []string
	switch v := v.(type) {
	case []any:
		for _, e := range v {
			out = append(out, yamlText(e))
		}
	case yaml.MapSlice:
		for _, e := range v {
			out = append(out, fmt.Sprint(e.Key)+": "+yamlText(e.Value))
		}
	}
	return out
}

func yamlText(v any) string {
	switch v := v.(type) {
	case nil:
		return ""
	case string:
		return v
	case yaml.MapSlice:
		return strings.Join(yamlEntries(v), ", ")
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return fmt.Sprint(v)
}

// sameReading tells whether two readings mean the same: the same characters, but
// for spaces, or the same number.
func sameReading(typed, yaml string) bool {
	if typed == yaml || strings.Join(strings.Fields(typed), " ") == strings.Join(strings.Fields(yaml), " ") {
		return true
	}
	if len(typed) > 24 || strings.HasPrefix(typed, "0") && !strings.HasPrefix(typed, "0.") {
		return unquoted(typed) == unquoted(yaml)
	}
	a, errA := decimal.NewFromString(typed)
	b, errB := decimal.NewFromString(yaml)
	return errA == nil && errB == nil && a.Equal(b) || unquoted(typed) == unquoted(yaml)
}

// unquoted leaves out quotes around a value, also around one behind a name.
func unquoted(s string) string { return strings.NewReplacer(`"`, "", `'`, "").Replace(s) }
