package note

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal/source"
)

// The fuzz targets hold reading to what it promises for every input: it does not
// panic, every span lies in its file, reading twice gives the same, and no line of
// front matter is lost in silence.

// seeds are all inputs of the tables of this package, as whole files.
func seeds() []string {
	var list []string
	for _, c := range frontCases {
		list = append(list, c.data)
	}
	for _, c := range lineCases {
		list = append(list, "---\n"+c.line+"\n---\n")
	}
	for _, c := range cardCases {
		list = append(list, "---\n"+c.line+"\n---\n")
	}
	for _, c := range itemCases {
		list = append(list, "---\ndate: 2026-04-11\n---\n"+c.body)
	}
	for _, c := range scanCases {
		list = append(list, "---\ndate: 2026-04-11\n---\n"+c.body)
	}
	return list
}

// checkFaults holds the places of all faults to the file.
func checkFaults(t *testing.T, f *source.File, faults []source.Fault) {
	t.Helper()
	for _, fault := range faults {
		checkSpan(t, f, fault.Span, string(fault.Flaw))
		if fault.Other.File != nil {
			checkSpan(t, f, fault.Other, string(fault.Flaw)+", other place")
		}
		if fault.Flaw == "" {
			t.Errorf("a fault without a flaw at %v", fault.Span)
		}
	}
}

func checkSpan(t *testing.T, f *source.File, s source.Span, what string) {
	t.Helper()
	if s.File == nil || s.File.Path != f.Path || s.Start < 0 || s.End < s.Start || int(s.End) > len(s.File.Data) {
		t.Fatalf("%s stands from %d to %d of %d bytes", what, s.Start, s.End, len(f.Data))
	}
}

// checkFront holds the front matter's fields and entries to the order of the file.
func checkFront(t *testing.T, n *Note) {
	t.Helper()
	at := 0
	next := func(s source.Span, what string) {
		checkSpan(t, n.File, s, what)
		if int(s.Start) < at {
			t.Errorf("%s %q at %d stands before the end of what precedes it, %d", what, s.Text(), s.Start, at)
		}
		at = int(s.End)
	}
	for _, f := range n.Fields {
		next(f.KeySpan, "key")
		if f.KeySpan.Text() != f.Key || f.Value.S != "" && len(f.Entries) > 0 {
			t.Errorf("the key %q stands at %q, with the value %q and %d entries", f.Key, f.KeySpan.Text(), f.Value.S, len(f.Entries))
		}
		if f.Value.S != "" {
			next(f.Value.Whole(), "value")
		}
		for _, e := range f.Entries {
			next(e.Text.Whole(), "entry")
			if e.Text.Whole().Text() != e.Text.S || strings.Contains(e.Text.S, "\n") {
				t.Errorf("the entry %q stands at %q", e.Text.S, e.Text.Whole().Text())
			}
		}
	}
}

// checkAccounted holds that every line between the fences that is neither blank
// nor a comment has become a field, an entry or a fault.
func checkAccounted(t *testing.T, n *Note) {
	t.Helper()
	told := map[int]bool{}
	for _, f := range n.Fields {
		told[f.KeySpan.Begin().Line] = true
		for _, e := range f.Entries {
			told[e.Text.Whole().Begin().Line] = true
		}
	}
	for _, f := range n.Faults {
		told[f.Span.Begin().Line] = true
	}
	opened, closed, end := frontEnd(n.File.Data)
	if !opened || !closed {
		return
	}
	line := 0
	for span := range n.File.Lines {
		text := strings.Trim(span.Text(), " \t\r\n")
		if line++; text == "" || text == "---" || strings.HasPrefix(text, "#") || told[line] || int(span.Start) >= end {
			continue
		}
		t.Errorf("line %d, %q, is neither used nor reported", line, text)
	}
}

// checkNote holds everything that was read of a note to its file, and every bad
// line to a fault.
func checkNote(t *testing.T, n *Note) {
	t.Helper()
	checkFront(t, n)
	checkAccounted(t, n)
	checkFaults(t, n.File, n.Faults)
	bad := 0
	for _, l := range n.Lines {
		checkSpan(t, n.File, l.HeadSpan(), "head")
		checkSpan(t, n.File, l.Text.Whole(), "line")
		if l.NameSpan().Text() != l.Name {
			t.Errorf("the name %q stands at %q", l.Name, l.NameSpan().Text())
		}
		checkLineSpans(t, n, l)
		if l.Bad {
			bad++
		}
	}
	for _, it := range n.Items {
		checkItemSpans(t, it)
		checkSpan(t, n.File, it.HeadSpan(), "head of an item")
		if it.Bad {
			bad++
		}
		if it.ID != "" && !IsID(it.ID) || it.Kind != "" && !slices.Contains(Kinds, it.Kind) {
			t.Errorf("%q has the kind %q and the id %q", it.Text.S, it.Kind, it.ID)
		}
	}
	for _, s := range n.Scans {
		checkSpan(t, n.File, s.Span, "scan")
		for _, c := range s.Codes {
			checkSpan(t, n.File, c.Span, "code")
			if !IsCode(c.Code) || c.Span.Text() != c.Code {
				t.Errorf("the code %q stands at %q", c.Code, c.Span.Text())
			}
		}
	}
	for _, r := range n.Refs {
		checkSpan(t, n.File, r.Span, "reference")
	}
	if d := n.NotPortable(); d != nil {
		checkSpan(t, n.File, d.At, "not portable")
	}
	real := len(n.Faults)
	if bad > real {
		t.Errorf("%d bad lines, but %d faults: %q", bad, real, faultsOf(n))
	}
	if n.Lost > 0 && real == 0 {
		t.Errorf("%d lines lost without a fault", n.Lost)
	}
}

func FuzzFront(f *testing.F) {
	for _, s := range seeds() {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		n := Open(source.NewFile("a.md", data))
		checkFront(t, n)
		checkFaults(t, n.File, n.Faults)
		if !n.Unread {
			checkUTF8(n)
			checkControls(n)
			checkAccounted(t, n)
		}
	})
}

// FuzzLine reads one line as every kind of line.
func FuzzLine(f *testing.F) {
	for _, c := range lineCases {
		_, line, _ := strings.Cut(c.line, ": ")
		f.Add(line)
	}
	for _, c := range cardCases {
		_, line, _ := strings.Cut(c.line, ": ")
		f.Add(line)
	}
	f.Fuzz(func(t *testing.T, line string) {
		line = strings.Trim(line, " \t\r\n") // as readers of front matter and bodies do
		for _, kinds := range [][]*Kind{Session, Card, Garage, Page} {
			for _, k := range kinds {
				file := newTestFile("\n" + line)
				n := &Note{File: file}
				l := n.readLine(k, context{home: pounds}, newText(file, 1, len(file.Data)))
				checkFaults(t, file, n.Faults)
				checkSpan(t, file, l.HeadSpan(), "head")
				checkLineSpans(t, n, l)
				if l.Bad != (len(n.Faults) > 0) {
					t.Errorf("%s: bad is %v, faults %q", k.Key, l.Bad, faultsOf(n))
				}
				if !l.Bad && l.Head == nil && k.Head != nil {
					t.Errorf("%s: a sound line without a head", k.Key)
				}
			}
		}
	})
}

// FuzzItem reads one task-list item with that text.
func FuzzItem(f *testing.F) {
	for _, c := range itemCases {
		f.Add(c.body)
	}
	f.Fuzz(func(t *testing.T, body string) {
		checkNote(t, bodyOf("- [ ] "+body))
	})
}

// FuzzNote reads whole files as every sort of file, twice.
func FuzzNote(f *testing.F) {
	for _, s := range seeds() {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, kinds := range [][]*Kind{Session, Page, Card, Garage} {
			n := readNote(kinds, string(data))
			checkNote(t, n)
			again := readNote(kinds, string(data))
			if a, b := faultLines(n), faultLines(again); !reflect.DeepEqual(a, b) {
				t.Errorf("read twice: %q, then %q", a, b)
			}
			if a, b := linesOf(n), linesOf(again); !reflect.DeepEqual(a, b) {
				t.Errorf("read twice: %q, then %q", a, b)
			}
		}
	})
}

func faultLines(n *Note) []string {
	var list []string
	for _, f := range n.Faults {
		list = append(list, faultLine(f)+f.Why+f.Help)
	}
	return list
}

func linesOf(n *Note) []string {
	var list []string
	for _, l := range n.Lines {
		list = append(list, l.Kind.Key+l.Name+lineOf(l))
	}
	for _, it := range n.Items {
		list = append(list, itemOf(it))
	}
	return list
}
