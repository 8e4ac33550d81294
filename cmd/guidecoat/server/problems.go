package server

import (
	"encoding/json"
	"slices"
	"strings"

	"guidecoat/journal/check"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

// tell tells the editor the problems of some files of a folder, of all for nil. What was
// told of a file before is told again only if it is another.
func (s *server) tell(f *folder, r *reading, only map[string]bool, found []problem.Problem) {
	byFile := map[string][]problem.Problem{}
	for _, p := range found {
		byFile[p.Span.File.Path] = append(byFile[p.Span.File.Path], p)
	}
	names := only
	if names == nil {
		names = map[string]bool{}
		for name := range byFile {
			names[name] = true
		}
		for name := range f.told {
			names[name] = true
		}
		s.mu.Lock()
		for _, d := range s.open {
			if d.folder == f {
				names[d.name] = true
			}
		}
		s.mu.Unlock()
	}
	for _, name := range sorted(names) {
		s.tellOf(f, r.changes, name, byFile[name])
	}
}

// tellOf tells the problems of one file, unless its text is newer than they are.
func (s *server) tellOf(f *folder, changes int, name string, found []problem.Problem) {
	params := publishParams{URI: s.address(f, name), Diagnostics: []diagnostic{}}
	d := s.openAt(f, name)
	if d != nil {
		if changes != f.changed() {
			return
		}
		params.Version = &d.version
	}
	pages := map[*source.File]page{}
	if d != nil && d.laid() != d.text {
		found = append(check.InWords(note.Open(source.NewFile(name, []byte(d.text))).Faults, problem.Error), found...)
	}
	for i := range found {
		params.Diagnostics = append(params.Diagnostics, s.diagnostic(f, pages, &found[i]))
	}
	message, err := json.Marshal(params)
	if err != nil || f.told[name] == string(message) {
		return
	}
	f.told[name] = string(message)
	s.rpc.Notify(s.ctx, "textDocument/publishDiagnostics", params) // an editor that is gone needs none
}

// actions are what puts the problems of a range right. The editor does it.
func (s *server) actions(p actionParams) (any, error) {
	list := []codeAction{}
	d, ok := s.file(p.Document.URI)
	if !ok || len(p.Context.Only) > 0 && !slices.Contains(p.Context.Only, quickFix) {
		return list, nil
	}
	r := d.folder.read(s.today())
	pages := map[*source.File]page{}
	for _, x := range r.problems(map[string]bool{d.name: true}) {
		told := s.diagnostic(d.folder, pages, &x)
		if x.Span.File.Path != d.name || told.Range.Start.Line > p.Range.End.Line || told.Range.End.Line < p.Range.Start.Line {
			continue
		}
		offer := func(title string, sure bool, fix source.Fix) {
			edit := textEdit{pages[x.Span.File].span(fix.Span), fix.Text}
			list = append(list, codeAction{title, quickFix, []diagnostic{told}, sure, workspaceEdit{map[string][]textEdit{p.Document.URI: {edit}}}})
		}
		if x.Fix != nil && x.Fix.Text == "" {
			offer("Delete \""+x.Fix.Span.Text()+"\"", true, *x.Fix)
		} else if x.Fix != nil {
			offer("Write \""+strings.TrimSpace(x.Fix.Text)+"\"", true, *x.Fix)
		}
		if l := r.lineOf(x.Span); l != nil && x.Severity == problem.Warning && !l.Has("sure") {
			end := len(l.Text.S)
			offer("It is meant so: write \"; sure\"", false, source.Fix{Span: l.Text.Span(end, end), Text: "; sure"})
		}
	}
	return list, nil
}

const quickFix = "quickfix"

// lineOf is the line or item with clauses in which a span begins, or nil.
func (r *reading) lineOf(at source.Span) *note.Line {
	n := r.noteAt(at.File.Path)
	if n == nil {
		return nil
	}
	items := pick.Map(n.Items, func(it *note.Item) *note.Line { return it.Line })
	return pick.First(slices.Concat(n.Lines, items), func(l *note.Line) bool {
		begin := l.Text.Whole()
		if l.Name != "" {
			begin.Start = l.NameSpan().Start
		}
		return begin.Start <= at.Start && at.Start < begin.End && len(l.Kind.Clauses) > 0
	})
}

// diagnostic is a problem as the protocol tells it. Pages are those of its files so far.
func (s *server) diagnostic(f *folder, pages map[*source.File]page, p *problem.Problem) diagnostic {
	file := p.Span.File
	if _, ok := pages[file]; !ok {
		pages[file] = s.page(f, file)
	}
	d := diagnostic{Range: pages[file].span(p.Span), Severity: int(p.Severity), Code: p.Check, Source: "guidecoat", Message: p.Message}
	if p.Help != "" {
		d.Message += "\n" + p.Help
	}
	return d
}
