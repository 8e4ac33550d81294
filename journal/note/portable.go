package note

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"guidecoat/journal/pick"
	"guidecoat/journal/source"

	meta "github.com/yuin/goldmark-meta"
	"github.com/yuin/goldmark/parser"
	gtext "github.com/yuin/goldmark/text"
	"gopkg.in/yaml.v2"

	"github.com/shopspring/decimal"
)

// A Difference is where YAML reads front matter otherwise. It is no mistake: a note is read by line.
type Difference struct {
	At          source.Span
	Typed, Read string
	Stops       string // why the program stops there; "" where it reads something else
}

var yamlLine = regexp.MustCompile(`line (\d+): `)

// maxPortable is how many bytes goldmark-meta is given; YAML readers may take more than linear time.
const maxPortable = 64 << 10

// NotPortable returns the first place where goldmark-meta's reading differs from ours, or nil.
func (n *Note) NotPortable() *Difference {
	n.portable.once.Do(func() { n.portable.differs = n.compare() })
	return n.portable.differs
}

// A portable is what NotPortable has found, kept since it takes longer than to read the note.
type portable struct {
	once    sync.Once
	differs *Difference
}

func (n *Note) compare() *Difference {
	if n.front == 0 || n.front > maxPortable {
		return nil
	}
	pc := parser.NewContext()
	pc.Set(frontKey, n.front)
	pc.Set(portableKey, true)
	Markdown.Parser().Parse(gtext.NewReader(n.File.Data[:n.front]), parser.WithContext(pc))
	items, err := meta.TryGetItems(pc)
	if err != nil {
		span := n.File.Span(0, len("---"))
		if m := yamlLine.FindStringSubmatch(err.Error()); m != nil {
			line, _ := strconv.Atoi(m[1])
			span = n.lineSpan(line + 1) // YAML counts from below the fence
		}
		why := strings.TrimPrefix(yamlLine.ReplaceAllString(err.Error(), ""), "yaml: ")
		return &Difference{At: span, Stops: strings.ReplaceAll(why, "\n", " ")}
	}
	other := map[string]any{}
	for _, it := range items {
		other[fmt.Sprint(it.Key)] = it.Value
	}
	for _, f := range Open(n.File).Fields {
		value := other[f.Key]
		switch {
		case f.Repeated:
		case len(f.Entries) == 0 && f.Value.S != "":
			if got := yamlText(value); !sameReading(f.Value.S, got) {
				return &Difference{At: f.Value.Whole(), Typed: f.Value.S, Read: got}
			}
		default:
			for j, got := range yamlEntries(value) {
				if j < len(f.Entries) && !f.Entries[j].Unusable && !sameReading(f.Entries[j].Text.S, got) {
					return &Difference{At: f.Entries[j].Text.Whole(), Typed: f.Entries[j].Text.S, Read: got}
				}
			}
		}
	}
	return nil
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
		out = append(out, pick.Map(v, yamlText)...)
	case yaml.MapSlice:
		out = append(out, pick.Map(v, func(e yaml.MapItem) string { return fmt.Sprint(e.Key) + ": " + yamlText(e.Value) })...)
	}
	return out
}

func yamlText(v any) string {
	switch v := v.(type) {
	case nil:
		return ""
	case string:
		return v
	case yaml.MapSlice, []any:
		return strings.Join(yamlEntries(v), ", ")
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return fmt.Sprint(v)
}

// sameReading tells whether two readings are the same characters but for spaces, or the same number.
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
