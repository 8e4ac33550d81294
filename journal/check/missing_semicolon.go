package check

import (
	"regexp"
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var missingSemicolon = &Check{
	Name: "missing-semicolon", Severity: problem.Warning,
	Summary: "a clause at the end of other words, where it is none",
	Explain: "Without a semicolon a clause is words like any other: the hours count once, the price goes to no part. " +
		"Only a keyword with a value of its own form, or the name of a known part or stage, is reported, and a severity behind a comma.",
	Example: "---\nstage: body\nwrong|cost: 144.00 delivery as transport\nright|cost: 144.00 delivery; as transport\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			parts := p.partsCalled(w.note)
			for _, l := range w.note.Lines {
				if !p.leftOut(l) && isMoney(l) {
					if !l.Has("from") {
						p.supplierIn(l.Words())
					}
					if !l.Has("for") && !l.Has("as") {
						p.partIn(l.Words(), parts)
					}
				}
				p.missingSemicolon(w.note, l)
			}
			for _, it := range w.note.Items {
				p.missingSemicolon(w.note, it.Line)
			}
		}
	},
}

func isMoney(l *note.Line) bool { return l.Kind.Key == "cost" || l.Kind.Key == "credit" }

// supplierIn tells of the name of a known supplier, or its first word if that is long,
// in the words of a line that says none.
func (p *Pass) supplierIn(t note.Text) {
	const long = 6
	for _, name := range p.from().names {
		first, _, _ := strings.Cut(name, " ")
		if len(first) < long {
			first = name
		}
		at := strings.Index(strings.ToLower(t.S), strings.ToLower(first))
		if at < 0 || at+len(first) > len(t.S) || at > 0 && t.S[at-1] != ' ' || at+len(first) < len(t.S) && strings.IndexByte(" ,.)", t.S[at+len(first)]) < 0 {
			continue
		}
		p.Report(t.Span(at, at+len(first)), "the supplier "+quote(name)+" is named in words, and the line counts for none", "Write \"; from "+name+"\" if it was bought there.")
		return
	}
}

// partIn tells of a price that is called as a part of the same note.
func (p *Pass) partIn(t note.Text, parts map[string]string) {
	called, _, _ := strings.Cut(t.S, ",")
	if id := parts[strings.ToLower(called)]; id != "" {
		p.Report(t.Span(0, len(called)), "the part "+quote(id)+" is named in words, and the price counts for none", "Write \"; for "+id+"\" if it was paid for it.")
	}
}

// partsCalled are the ids of a note's parts by what people call them: the id's words, or those of the line.
func (p *Pass) partsCalled(n *note.Note) map[string]string {
	called := map[string]string{}
	for _, l := range n.Lines {
		if l.Kind.Key == "parts" && !p.leftOut(l) {
			words, _, _ := strings.Cut(l.Words().S, ",")
			called[strings.ReplaceAll(l.Name, "-", " ")], called[strings.ToLower(words)] = l.Name, l.Name
		}
	}
	delete(called, "")
	return called
}

// searched is how much before its end is looked at.
const searched = 100

func (p *Pass) missingSemicolon(n *note.Note, l *note.Line) {
	if p.leftOut(l) || len(l.Kind.Clauses) == 0 {
		return
	}
	texts := []note.Text{l.Words()}
	texts = append(texts, pick.Map(l.Clauses, func(c note.Found) note.Text { return c.Arg })...)
	for _, t := range texts {
		for end := len(t.S); end > 0; end = strings.LastIndexByte(t.S[:end], ',') { // a clause ends at a comma too
			end := len(strings.TrimRight(t.S[:end], " .!)"))
			if at, clause := p.unparted(n, l, t, end); clause != "" {
				at, clause = clausesBefore(n, l, t, at, clause)
				rest := strings.Trim(t.S[end:], " .!)")
				if at == 0 {
					rest = strings.TrimLeft(rest, ", ")
				}
				p.ReportFix(t.Span(at, end), quote(t.S[at:end])+" is part of other words here, and does nothing", "Write \"; "+clause+"\" if it is meant as a clause.",
					&source.Fix{Span: t.Span(len(strings.TrimRight(t.S[:at], " \t,(")), len(t.S)), Text: rest + "; " + clause})
				break
			}
		}
	}
}

// clausesBefore takes in the clauses before one that commas part from it, as in `as vehicle, stage buying, on 2026-11-20`.
func clausesBefore(n *note.Note, l *note.Line, t note.Text, at int, clause string) (int, string) {
	for {
		before, found := strings.CutSuffix(strings.TrimRight(t.S[:at], " "), ",")
		start := strings.LastIndexByte(before, ',') + 1
		start += len(before[start:]) - len(strings.TrimLeft(before[start:], " "))
		if !found || start == len(before) {
			return at, clause
		}
		f := n.ClauseIn(l, t, start, len(before))
		if f == nil || l.Has(f.Word) {
			return at, clause
		}
		at, clause = start, f.Word+before[start+len(f.Word):]+"; "+clause
	}
}

// unparted returns the clause that ends there without a semicolon, and where it begins.
func (p *Pass) unparted(n *note.Note, l *note.Line, t note.Text, end int) (int, string) {
	for at := max(0, end-searched); at < end; at++ {
		if at > 0 && t.S[at-1] != ' ' && t.S[at-1] != '(' && t.S[at-1] != ',' {
			continue
		}
		words, apart := t.S[at:end], at == 0 || strings.HasSuffix(t.S[:at], ", ")
		if f := n.ClauseIn(l, t, at, end); f != nil && !l.Has(f.Word) && (typed(l, f) || p.namesKnown(words) || f.Group == "severity" && apart && (at > 0 || end < len(t.S) && t.S[end] == ',')) {
			return at, f.Word + words[len(f.Word):]
		}
		if apart && at > 0 && p.State.Build.StageNamed(words) != nil && n.ClauseIn(l, t, at, end) == nil && !l.Has("stage") && n.Line("stage") != nil && n.Line("stage").Text.S != words {
			return at, "stage " + words
		}
		if strings.IndexByte("#rRiItTnN", words[0]) >= 0 && isMoney(l) && !l.Has("receipt") {
			if m := receiptNo.FindStringSubmatch(words); m != nil {
				return at, "receipt " + m[1]
			}
		}
	}
	return 0, ""
}

// receiptNo is what people write before the number of a receipt.
var receiptNo = regexp.MustCompile(`(?i)^(?:(?:receipt|rcpt|invoice|inv|ticket|tkt|note)\.? ?(?:no\.?|nr\.?)? ?#?|#)(\S*[0-9]\S*)$`)

// namesKnown tells whether words are a clause with the name of a part or a stage.
func (p *Pass) namesKnown(words string) bool {
	if stage, ok := strings.CutPrefix(words, "stage "); ok {
		return p.State.Build.StageNamed(stage) != nil
	}
	part, ok := strings.CutPrefix(strings.TrimPrefix(words, "waits "), "for ")
	return ok && strings.Contains(part, "-") && p.all().Part(part) != nil
}

// typed tells whether a clause has a value that words seldom have by chance.
func typed(l *note.Line, f *note.Found) bool {
	if f.Clause.Value == nil || f.Value == nil || f.Word == "takes" || f.Word == "rate" || f.Word == "due" && l.Kind.Key == "cost" {
		return false
	}
	_, words := f.Value.(string)
	return !words || f.Clause.Value.Near != nil
}
