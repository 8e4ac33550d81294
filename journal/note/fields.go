package note

import (
	"bytes"
	"strings"

	"guidecoat/journal/near"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
)

// readFields reads what stands at the keys, and reports lines that should have been indented below one.
func (n *Note) readFields(kinds []*Kind) {
	var above *Kind // has nothing but such lines
	for i := range n.Fields {
		f := &n.Fields[i]
		k := kind(kinds, f.Key)
		switch {
		case above != nil && outdented(kinds, f):
			n.shapeFault(f.KeySpan, above.Key, notIndented[above.Shape])
			n.fix(f.KeySpan.Part(0, 0), map[Shape]string{Many: "  - ", Named: "  "}[above.Shape])
			n.Lost++
			continue
		case f.Repeated:
			n.Lost += max(len(f.Entries), 1)
		case k == nil:
			n.fault(source.Fault{Flaw: UnknownKey, Span: f.KeySpan, Word: f.Key, Near: keysOf(kinds)})
			n.Lost += max(len(f.Entries), 1)
		case !f.empty():
			n.readField(k, f)
		case k.Shape != One && i+1 < len(n.Fields) && outdented(kinds, &n.Fields[i+1]):
			above = k
			continue
		default:
			n.fault(source.Fault{Flaw: EmptyEntry, Span: f.KeySpan, Word: f.Key})
		}
		above = nil
	}
}

// outdented tells whether a field may be a line that was meant to stand below a key.
func outdented(kinds []*Kind, f *Field) bool {
	return f.Value.S != "" && kind(kinds, f.Key) == nil && near.Nearest(f.Key, keysOf(kinds)) == ""
}

func keysOf(kinds []*Kind) []string {
	return pick.Map(kinds, func(k *Kind) string { return k.Key })
}

func (n *Note) readField(k *Kind, f *Field) {
	if k.Shape == One && len(f.Entries) > 0 {
		if first := f.Entries[0]; !first.Unusable {
			n.shapeFault(first.Text.Whole(), f.Key, "it has one value, on its own line")
		}
		n.Lost += len(f.Entries)
		return
	}
	entries := f.Entries
	if f.Value.S != "" {
		entries = []Entry{{Text: f.Value, Dash: true}}
	}
	names := map[string]int{}
	for i, e := range entries {
		switch {
		case e.Unusable:
			n.Lost++
		case k.Shape == Named:
			n.readNamed(k, entries, i, names)
		case !e.Dash && indentedKey(e.Text.S) != "":
			key := indentedKey(e.Text.S)
			n.indented(e.Text.Span(0, len(key)), f.Key, key)
			n.Lost += len(entries) - i // what follows is below that key
			return
		case !e.Dash:
			n.shapeFault(e.Text.Whole(), f.Key, "each of its lines begins with a dash")
			n.fix(e.Text.Span(0, 0), "- ")
			n.Lost++
		default:
			n.add(n.readLine(k, n.context(), e.Text))
		}
	}
}

// indentedKey returns the key that a line begins with, "" where it begins with none.
func indentedKey(line string) string {
	colon := max(nameEnd(line), 0)
	if knownKeys[line[:colon]] == nil {
		return ""
	}
	return line[:colon]
}

// indented reports a key that was taken for a line of the one above it.
func (n *Note) indented(at source.Span, above, key string) {
	n.shapeFault(at, above, "\""+key+"\" is a key of its own")
	n.Faults[len(n.Faults)-1].Help = "Take out the spaces before it."
	n.fix(n.File.Span(bytes.LastIndexByte(n.File.Data[:at.Start], '\n')+1, int(at.Start)), "")
}

// notIndented says what an outdented line lacks.
var notIndented = map[Shape]string{
	Many:  "each of its lines begins with a dash",
	Named: "its lines are indented by spaces",
}

func (n *Note) shapeFault(at source.Span, key, why string) {
	n.fault(source.Fault{Flaw: WrongShape, Span: at, Word: key, Why: why, Help: itemHelp(at.Text())})
}

// readNamed reads `NAME: LINE`. A name that comes twice needs dashes.
func (n *Note) readNamed(k *Kind, entries []Entry, i int, names map[string]int) {
	t := entries[i].Text
	colon := nameEnd(t.S)
	if name, _, _ := strings.Cut(t.S, ";"); colon <= 0 && k.Bare && !strings.Contains(name, ",") {
		colon = len(name) // its semicolon, or its end
	}
	if colon <= 0 {
		n.shapeFault(t.Whole(), k.Key, "each of its lines begins with a name and a colon")
		if name, rest := firstWord(t.S); k.begins(t.S[:name], t.S[rest:]) {
			n.Faults[len(n.Faults)-1].Help = "Write \"" + t.S[:name] + ": \" at its beginning."
			n.fix(t.Span(name, name), ":")
		}
		if name, state, _ := strings.Cut(t.S, ":"); k.begins(name, state) {
			n.Faults[len(n.Faults)-1].Help = "Write a space behind the colon."
			n.fix(t.Span(len(name)+1, len(name)+1), " ")
		}
		n.Lost++
		return
	}
	start, end := trim(t.S, 0, colon)
	name := t.Slice(start, end)
	if first, next := firstWord(name.S); k.begins(name.S[:first], name.S[next:]) {
		n.shapeFault(name.Whole(), k.Key, "its colon stands too late")
		n.Faults[len(n.Faults)-1].Help = "Write \"" + name.S[:first] + ": " + name.S[next:] + "\"."
		n.fix(t.Span(start, colon+1), name.S[:first]+": "+name.S[next:])
		n.Lost++
		return
	}
	vStart, vEnd := unquote(t.S, min(colon+1, len(t.S)), len(t.S))
	if key := knownKeys[name.S]; key != nil && k.Name != nil && !entries[i].Dash && key.hasValue(t.S[min(colon+1, len(t.S)):]) && !k.begins(name.S, t.S[vStart:vEnd]) {
		n.indented(name.Whole(), k.Key, name.S)
		n.Lost++
		return
	}
	if vStart == vEnd && !k.Bare {
		n.lose(source.Fault{Flaw: EmptyEntry, Span: name.Whole(), Word: name.S})
		return
	}
	first, twice := names[name.S]
	if !twice {
		names[name.S] = i
	} else if !entries[i].Dash || !entries[first].Dash {
		o := entries[first].Text
		n.lose(source.Fault{Flaw: RepeatedName, Span: name.Whole(), Word: name.S, Other: o.Span(0, len(name.S))})
		return
	}
	l := n.readLine(k, n.context(), t.Slice(vStart, vEnd))
	l.Name, l.nameAt = name.S, name.Whole().Start
	if k.Name != nil {
		if _, _, bad := k.Name.Read(context{}, name.S); bad != nil {
			n.valueFault(l, k.Name, name, bad)
		}
	}
	n.add(l)
}

// begins tells whether a line of that kind may have that name and begin with those words.
func (k *Kind) begins(name, words string) bool {
	if k.Name == nil || k.Head == nil || words == "" {
		return false
	}
	_, _, bad := k.Name.Read(context{}, name)
	_, _, worse := k.Head.Read(context{}, words)
	return bad == nil && worse == nil
}
