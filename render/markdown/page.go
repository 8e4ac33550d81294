package markdown

import (
	"bytes"

	"guidecoat/journal/view"
	"guidecoat/render/tongue"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/util"
)

// A page is one rendering. It is goldmark's writer too, so that one renderer serves every page at once.
type page struct {
	bytes.Buffer
	r    *Renderer
	l    Links
	src  []byte
	body *view.Body // nil for the words of a line
	doc  ast.Node   // the body's tree
	// bare says that only words are written: no block around them, no pictures.
	bare bool

	skipped  ast.Node // it was dealt with on entering; its leaving writes nothing
	dead     ast.Node // the open link that leads nowhere; links do not nest
	blocks   int      // how many quotes and lists are open
	inlines  int      // and how much emphasis
	tables   int
	outlined map[*ast.Heading]place
	anchors  map[string]string // the ids of headings, by what links call them
	refs     []parser.Reference
	refsRead bool
}

// The nesting that is still shown: browsers give up at a few hundred elements.
const (
	maxBlocks  = 40
	maxInlines = 32
)

// Flush and Buffered make a page an util.BufWriter; everything is kept in memory.
func (p *page) Flush() error  { return nil }
func (p *page) Buffered() int { return 0 }

func (r *Renderer) page(l Links) *page {
	p := r.pages.Get().(*page)
	if p.r, p.l = r, l; l.Tongue == nil {
		p.l.Tongue = tongue.Of("", nil)
	}
	return p
}

// put gives a page back, without what it holds of the note.
func (r *Renderer) put(p *page) {
	buf := p.Buffer
	if buf.Cap() > 1<<20 { // one huge note must not keep its memory for ever
		buf = bytes.Buffer{}
	}
	buf.Reset()
	*p = page{Buffer: buf}
	r.pages.Put(p)
}

// HTML was rendered of a note. Nobody else can make any, so a page takes it as it is.
type HTML struct{ html string }

func (h HTML) String() string { return h.html }

func (p *page) html() HTML { return HTML{clean(p.Bytes())} }

// skip says that a node is dealt with, its children and its leaving included.
func (p *page) skip(n ast.Node) ast.WalkStatus {
	p.skipped = n
	return ast.WalkSkipChildren
}

// nodes are the node renderers, one per kind of node of [note.Markdown].
type nodes struct{}

func (nodes) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	for kind, f := range map[ast.NodeKind]func(*page, ast.Node, bool) ast.WalkStatus{
		ast.KindDocument:                (*page).document,
		ast.KindHeading:                 (*page).heading,
		ast.KindParagraph:               (*page).paragraph,
		ast.KindTextBlock:               (*page).textBlock,
		ast.KindBlockquote:              (*page).quote,
		ast.KindList:                    (*page).list,
		ast.KindListItem:                (*page).listItem,
		ast.KindThematicBreak:           (*page).thematicBreak,
		ast.KindCodeBlock:               (*page).codeBlock,
		ast.KindFencedCodeBlock:         (*page).codeBlock,
		ast.KindHTMLBlock:               (*page).htmlBlock,
		ast.KindLinkReferenceDefinition: (*page).nothing,
		east.KindTable:                  putTable,
		east.KindTableHeader:            putTableHeader,
		east.KindTableRow:               putTableRow,
		east.KindTableCell:              putTableCell,
		ast.KindText:                    (*page).words,
		ast.KindString:                  (*page).string,
		ast.KindCodeSpan:                (*page).codeSpan,
		ast.KindEmphasis:                (*page).emphasis,
		east.KindStrikethrough:          (*page).strikethrough,
		ast.KindLink:                    (*page).link,
		ast.KindAutoLink:                (*page).autoLink,
		ast.KindImage:                   (*page).image,
		ast.KindRawHTML:                 (*page).rawHTML,
		east.KindTaskCheckBox:           putCheckBox,
	} {
		reg.Register(kind, func(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
			p := w.(*page)
			if !entering && p.skipped == n {
				p.skipped = nil
				return ast.WalkContinue, nil
			}
			return f(p, n, entering), nil
		})
	}
}

func (p *page) document(ast.Node, bool) ast.WalkStatus { return ast.WalkContinue }

func (p *page) nothing(n ast.Node, _ bool) ast.WalkStatus { return p.skip(n) }

func (p *page) put(list ...string) {
	for _, s := range list {
		p.WriteString(s)
	}
}

// text writes a string as words or as the value of an attribute in double quotes.
func (p *page) text(s string) { escape(&p.Buffer, s) }

func escape[S string | []byte](b *bytes.Buffer, s S) {
	from := 0
	for i := 0; i < len(s); i++ {
		var ref string
		switch s[i] {
		case '&':
			ref = "&amp;"
		case '<':
			ref = "&lt;"
		case '>':
			ref = "&gt;"
		case '"':
			ref = "&quot;"
		default:
			continue
		}
		b.Write(append(b.AvailableBuffer(), s[from:i]...))
		b.WriteString(ref)
		from = i + 1
	}
	b.Write(append(b.AvailableBuffer(), s[from:]...))
}

// tag writes an opening tag with a class, if there is one.
func (p *page) tag(name, class string) {
	p.put("<", name)
	p.attr("class", class)
	p.WriteByte('>')
}

// element writes words in an element of that class.
func (p *page) element(name, class, words string) {
	p.tag(name, class)
	p.text(words)
	p.put("</", name, ">")
}

// attr writes an attribute, unless it is empty.
func (p *page) attr(name, value string) {
	if value != "" {
		p.put(" ", name, `="`)
		p.text(value)
		p.WriteByte('"')
	}
}
