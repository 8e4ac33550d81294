package server

import (
	"cmp"
	"path/filepath"
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
)

// symbols are the lines of a note below their keys, then its items and scans.
func (s *server) symbols(p documentParams) (any, error) {
	list := []documentSymbol{}
	v, ok := s.see(p.Document.URI)
	if !ok {
		return list, nil
	}
	words := map[int32]string{}
	for _, l := range v.aloud(v.name) {
		words[l.Span.Start] = l.Words
	}
	n := v.noteAt(v.name)
	for _, l := range n.Lines {
		at, name := l.Text.Whole(), cmp.Or(l.Name, l.Text.S)
		if l.Name != "" {
			at.Start = l.NameSpan().Start
		}
		sym := v.symbol(name, words[l.Text.Whole().Start], symbolField, at)
		if l.Kind.Shape == note.One {
			sym.Name, sym.Detail = l.Kind.Key, name
			list = append(list, sym)
			continue
		}
		if last := len(list) - 1; last < 0 || list[last].Kind != symbolKey || list[last].Name != l.Kind.Key {
			list = append(list, v.symbol(l.Kind.Key, "", symbolKey, at))
		}
		key := &list[len(list)-1]
		key.Children, key.Range.End = append(key.Children, sym), sym.Range.End
	}
	for _, it := range n.Items {
		list = append(list, v.symbol(cmp.Or(it.ID, note.PlainWords(it.Text.S)), words[it.Text.Whole().Start], symbolEvent, it.Text.Whole()))
	}
	for _, sc := range n.Scans {
		list = append(list, v.symbol("scan "+sc.Name, "", symbolObject, sc.Span))
	}
	return list, nil
}

func (v shown) symbol(name, detail string, kind int, at source.Span) documentSymbol {
	r := v.span(at)
	return documentSymbol{Name: cmp.Or(strings.TrimSpace(name), "?"), Detail: detail, Kind: kind, Range: r, SelectionRange: r}
}

// findSymbols are the parts, snags, readings and stages whose names hold some words, of
// every folder in which something is open.
func (s *server) findSymbols(p queryParams) (any, error) {
	s.mu.Lock()
	folders := pick.Map(sorted(s.folders), func(key string) *folder { return s.folders[key] })
	s.mu.Unlock()
	list := []workspaceSymbol{}
	query := strings.ToLower(p.Query)
	kinds := map[sort]int{anID: symbolEvent, aReading: symbolField, aStage: symbolKey, aSupplier: symbolString, aUnit: symbolObject}
	for _, f := range folders {
		r := f.read(s.today())
		seen := map[thing]bool{}
		for _, m := range r.mentions() {
			if seen[m.thing] || !strings.Contains(strings.ToLower(m.name), query) || len(list) == mostOffers {
				continue
			}
			seen[m.thing] = true
			list = append(list, workspaceSymbol{m.name, kinds[m.sort], filepath.Base(f.root), s.location(f, r.home(m.thing))})
		}
	}
	return list, nil
}

// tokenTypes are what the protocol calls the parts of a note, by their sort.
var tokenTypes = []string{note.KeyPart: "property", note.NamePart: "variable", note.WordPart: "keyword", note.ChoicePart: "enumMember",
	note.FigurePart: "number", note.QuotePart: "string", note.HeadingPart: "class", note.RemarkPart: "comment"}

// tokens colour a note as its typed form on the site is coloured.
func (s *server) tokens(p documentParams) (any, error) {
	l, ok := s.file(p.Document.URI)
	result := semanticTokens{Data: []uint32{}}
	if !ok {
		return result, nil
	}
	text := strings.TrimPrefix(l.laid(), byteOrderMark)
	before, last := len(l.laid())-len(text), position{}
	for _, part := range note.PartsOf(note.Open(source.NewFile("", []byte(text))).File) {
		typed := part.TypedRange()
		start := before + typed.Start
		if before+typed.End > len(l.text) {
			break // the end of front matter that is still being typed
		}
		for _, piece := range strings.SplitAfter(l.text[start:before+typed.End], "\n") { // a token of the protocol is on one line
			words := strings.TrimRight(piece, "\r\n")
			if words != "" {
				r := l.between(start, start+len(words))
				if r.Start.Line != last.Line {
					last.Character = 0
				}
				result.Data = append(result.Data, r.Start.Line-last.Line, r.Start.Character-last.Character, r.End.Character-r.Start.Character, uint32(part.Sort), 0)
				last = r.Start
			}
			start += len(piece)
		}
	}
	return result, nil
}

// folds are the front matter, each key with lines below it, what stands below each
// heading, and the blocks.
func (s *server) folds(p documentParams) (any, error) {
	folds := []foldingRange{}
	l, ok := s.file(p.Document.URI)
	if !ok {
		return folds, nil
	}
	add := func(from, to int) { // without empty lines at the end
		for start, end := l.line(to); to > from && strings.TrimSpace(l.text[start:end]) == ""; start, end = l.line(to) {
			to--
		}
		if from < to {
			folds = append(folds, foldingRange{uint32(from), uint32(to)})
		}
	}
	type heading struct{ line, depth int }
	var open []heading
	key, block, mark, front := -1, -1, "", l.isFence(0)
	closeUntil := func(depth, before int) {
		for len(open) > 0 && open[len(open)-1].depth >= depth {
			add(open[len(open)-1].line, before)
			open = open[:len(open)-1]
		}
	}
	for n := range l.starts {
		start, end := l.line(n)
		line := l.text[start:end]
		switch {
		case front && n == 0:
		case front:
			k, below := keyOf(line)
			if l.isFence(n) || !below && k != "" {
				if key > 0 {
					add(key, n-1)
				}
				key = n
			}
			if l.isFence(n) {
				add(0, n)
				front = false
			}
		case block >= 0:
			if strings.TrimLeft(strings.TrimSpace(line), mark[:1]) == "" && strings.HasPrefix(strings.TrimSpace(line), mark) {
				add(block, n)
				block = -1
			}
		case fenced.MatchString(line):
			block, mark = n, strings.TrimSpace(fenced.FindString(line))
		case strings.HasPrefix(line, "#"):
			if depth := len(line) - len(strings.TrimLeft(line, "#")); depth <= 6 && strings.HasPrefix(line[depth:], " ") {
				closeUntil(depth, n-1)
				open = append(open, heading{n, depth})
			}
		}
	}
	closeUntil(0, len(l.starts)-1)
	return folds, nil
}
