package markdown

import (
	"bytes"
	"strings"
	"sync"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
	"guidecoat/render/tongue"

	"github.com/alecthomas/chroma/v2"
	"github.com/alecthomas/chroma/v2/lexers"
	"github.com/yuin/goldmark/ast"
)

// codeBlock writes a block of code in a box that scrolls, and so takes the keyboard's focus.
func (p *page) codeBlock(n ast.Node, _ bool) ast.WalkStatus {
	var b strings.Builder
	lines := n.Lines()
	for i := range lines.Len() {
		s := lines.At(i)
		b.WriteString(strings.TrimRight(string(s.Value(p.src)), "\r\n"))
		b.WriteByte('\n')
	}
	info := ""
	if f, ok := n.(*ast.FencedCodeBlock); ok && f.Info != nil {
		info = string(unescaped(f.Info.Value(p.src)))
	}
	if unit := scanOf(info); unit != "" {
		putScan(p, unit, b.String())
		return p.skip(n)
	}
	language, _, _ := strings.Cut(strings.TrimSpace(info), " ")
	p.put(`<pre class="chroma" tabindex="0"><code`)
	if language != "" {
		p.attr("class", "language-"+language)
	}
	p.put(">", p.r.code.highlighted(language, b.String()), "</code></pre>\n")
	return p.skip(n)
}

const (
	maxLexers   = 1000     // names of languages
	maxLanguage = 40       // letters in one; no language has more
	maxCode     = 32 << 10 // bytes in a block that is highlighted: lexers may take more than linear time
)

// A memory remembers languages: looking for an unknown one takes longer than rendering a page.
type memory struct {
	mu     sync.Mutex
	lexers map[string]chroma.Lexer // nil for an unknown name
}

func (m *memory) highlighted(language, code string) string {
	language = strings.ToLower(language)
	lexer := m.lexer(language)
	switch {
	case len(code) > maxCode, lexer == nil && language != noteLanguage:
		var b bytes.Buffer
		escape(&b, code)
		return b.String()
	case lexer == nil:
		return highlight(func() (chroma.Iterator, error) {
			return chroma.Literator(typedTokens(note.Open(source.NewFile("", []byte(code))).File)...), nil
		}, code)
	}
	return highlight(func() (chroma.Iterator, error) { return lexer.Tokenise(nil, code) }, code)
}

func (m *memory) lexer(language string) chroma.Lexer {
	if language == "" || len(language) > maxLanguage || language == noteLanguage {
		return nil
	}
	m.mu.Lock()
	l, ok := m.lexers[language]
	m.mu.Unlock()
	if ok {
		return l
	}
	l = lexers.Get(language)
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.lexers == nil || len(m.lexers) >= maxLexers {
		m.lexers = map[string]chroma.Lexer{}
	}
	m.lexers[language] = l
	return l
}

// highlight returns code with the classes of its tokens; plain where they would lose or add anything.
func highlight(read func() (chroma.Iterator, error), code string) (out string) {
	var b bytes.Buffer
	defer func() {
		if recover() != nil { // a lexer that gave up; chroma says so by panicking
			b.Reset()
			escape(&b, code)
			out = b.String()
		}
	}()
	tokens, err := read()
	if err != nil {
		panic(err)
	}
	rest, open := code, ""
	for t := tokens(); t != chroma.EOF; t = tokens() {
		value := t.Value
		if rest == "" { // the newline that some lexers add
			break
		}
		if !strings.HasPrefix(rest, value) {
			panic("the lexer changed the code")
		}
		rest = rest[len(value):]
		open = openClass(&b, open, classOf(t.Type), value)
		escape(&b, value)
	}
	if rest != "" {
		panic("the lexer lost code")
	}
	openClass(&b, open, "", "")
	return b.String()
}

// openClass closes the span of one class and opens another; white space may stand in either.
func openClass(b *bytes.Buffer, open, class, value string) string {
	if class == open || value != "" && strings.TrimSpace(value) == "" {
		return open
	}
	if open != "" {
		b.WriteString("</span>")
	}
	if class != "" {
		b.WriteString(`<span class="` + class + `">`)
	}
	return class
}

// scanOf returns the control unit of a fenced block that is a fault scan, or "".
func scanOf(info string) string {
	words := strings.Fields(info)
	if len(words) != 2 || words[0] != "scan" || !note.IsID(words[1]) {
		return ""
	}
	return words[1]
}

// putScan writes a fault scan: a line of words where it lists nothing, or a table.
func putScan(p *page, unit, code string) {
	var lines []string
	for line := range strings.Lines(code) {
		if line = strings.TrimSpace(line); line != "" {
			lines = append(lines, line)
		}
	}
	if len(lines) == 0 || len(lines) == 1 && strings.EqualFold(lines[0], "no faults") {
		p.element("p", "scan", p.l.Tongue.Say("%s: no faults", tongue.Title(p.l.Tongue.Name(unit))))
		p.put("\n")
		return
	}
	name := p.l.Tongue.Say("%s: fault codes", tongue.Title(p.l.Tongue.Name(unit)))
	p.openScroll(name, "")
	p.put(`<table class="scan">`, "\n")
	p.element("caption", "", name)
	p.put("\n", `<thead><tr><th scope="col">`)
	p.text(p.l.Tongue.Say("Code"))
	p.put(`</th><th scope="col">`)
	p.text(p.l.Tongue.Say("What the unit says"))
	p.put("</th></tr></thead>\n<tbody>\n")
	for _, line := range lines {
		p.code(unit, line)
	}
	p.put("</tbody>\n</table>\n</div>\n")
}

// code writes one line of a scan, as it stands if it begins with no code.
func (p *page) code(unit, line string) {
	first, words := line, ""
	if i := strings.IndexAny(line, " \t"); i >= 0 {
		first, words = line[:i], strings.TrimSpace(line[i:])
	}
	code := strings.TrimRight(first, ",:;")
	if !note.IsCode(code) {
		p.put(`<tr><td colspan="2">`)
		p.text(line)
		p.put("</td></tr>\n")
		return
	}
	p.put(`<tr><th scope="row">`)
	p.entry("code", fact.ScanID(unit, code), code)
	p.put("</th><td>")
	p.text(words)
	p.put("</td></tr>\n")
}
