// Package press prints pages from templates of html/template, several times faster
// than that package does, and byte for byte the same.
//
// html/template stays the authority on what is safe. It parses the templates and
// writes its escapers into them; the press takes the finished trees, settles once
// for each type of data where every field is, and from then on only copies text
// and reads fields. Whatever it does not know it refuses as a whole, and that page
// goes through html/template as before; so do the pages on which anything goes
// wrong, so that mistakes are told in the same words.
package press

import (
	"html/template"
	"io"
	"reflect"
	"sync"
)

// A Page is a template that is printed many times. Several may print it at once.
type Page struct {
	*template.Template
	known sync.Map // of types of data, to their *entry
}

// New returns the page of that template. The template must keep the meaning of the
// functions that every template has.
func New(t *template.Template) *Page { return &Page{Template: t} }

// An entry is the program for one type of data.
type entry struct {
	once    sync.Once
	program *Program // nil where the press refuses
}

// Execute does what the template's own Execute does.
func (p *Page) Execute(w io.Writer, data any) error {
	t := reflect.TypeOf(data)
	known, ok := p.known.Load(t)
	if !ok { // one page alone is worth a program where it is a list of thousands
		known, _ = p.known.LoadOrStore(t, new(entry))
	}
	e := known.(*entry)
	e.once.Do(func() { e.program, _ = Compile(p.Template, t) })
	if e.program != nil {
		if done, err := e.program.Execute(w, data); done {
			return err
		}
	}
	return p.Template.Execute(w, data)
}

// A Program is a template made ready for data of one type.
type Program struct{ whole *part }

// Execute writes the page, if it can. If not, nothing is written and html/template
// has to do it. The data must be of the type that the program is for.
func (p *Program) Execute(w io.Writer, data any) (done bool, err error) {
	r := runs.Get().(*run)
	defer r.release()
	if !r.print(p.whole, reflect.ValueOf(data)) {
		return false, nil
	}
	_, err = w.Write(r.out)
	return true, err
}

// A run is one printing.
type run struct {
	out   []byte
	vars  []reflect.Value // of all the templates that are at work
	base  int             // where those of the innermost begin
	depth int
}

var runs = sync.Pool{New: func() any { return new(run) }}

// mostKept is the size of a page whose memory is kept for another. A list of
// thousands is larger, and comes once.
const mostKept = 1 << 20

// release keeps the run's memory for another, but nothing of the data.
func (r *run) release() {
	if cap(r.out) > mostKept {
		return
	}
	clear(r.vars[:cap(r.vars)])
	*r = run{out: r.out[:0], vars: r.vars[:0]}
	runs.Put(r)
}

// Trouble is what a run panics with where html/template might report an error.
type trouble struct{}

// print reports whether all went well.
func (r *run) print(p *part, data reflect.Value) (ok bool) {
	defer func() {
		if e := recover(); e != nil && e != (trouble{}) {
			panic(e)
		}
	}()
	r.call(p, data)
	return true
}

// maxDepth is how far templates may call each other here. html/template allows more.
const maxDepth = 1000

// call prints a template with its own variables.
func (r *run) call(p *part, dot reflect.Value) {
	if r.depth++; r.depth > maxDepth {
		panic(trouble{})
	}
	outer := r.base
	r.base = len(r.vars)
	r.vars = append(r.vars, make([]reflect.Value, p.slots)...)
	r.vars[r.base] = dot
	p.steps.do(r, dot)
	r.vars, r.base = r.vars[:r.base], outer
	r.depth--
}
