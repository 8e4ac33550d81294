package press

import (
	"fmt"
	"html/template"
	"io"
	"reflect"
	"text/template/parse"
)

// A step prints one node of a template.
type step func(r *run, dot reflect.Value)

type steps []step

func (list steps) do(r *run, dot reflect.Value) {
	for _, s := range list {
		s(r, dot)
	}
}

// A part is one template of the set, for one type of dot.
type part struct {
	steps steps
	slots int // how many variables it needs at a time
}

type partKey struct {
	name string
	dot  reflect.Type // nil where there is none
}

// A compiler makes the parts of a program. Each is made once, so templates may call
// themselves.
type compiler struct {
	set   *template.Template
	parts map[partKey]*part
}

// A refusal says what the press does not know. The compiler panics with it.
type refusal string

func (r refusal) Error() string { return string(r) }

func refuse(format string, args ...any) { panic(refusal(fmt.Sprintf(format, args...))) }

// Compile makes the program of a template for data of that type. Its error says
// what in the template is not known here; html/template can do it nevertheless.
func Compile(t *template.Template, data reflect.Type) (p *Program, err error) {
	defer func() {
		switch e := recover().(type) {
		case nil:
		case refusal:
			p, err = nil, e
		default:
			panic(e)
		}
	}()
	if data == nil || data == reflect.TypeFor[reflect.Value]() {
		refuse("there is no type of data")
	}
	// To be executed is what makes a template escape itself. What comes of it does
	// not matter: where it cannot be escaped it has no tree afterwards.
	_ = t.Execute(io.Discard, reflect.Zero(data).Interface())
	c := &compiler{t, map[partKey]*part{}}
	return &Program{c.part(t.Name(), data)}, nil
}

func (c *compiler) part(name string, dot reflect.Type) *part {
	key := partKey{name, dot}
	if p := c.parts[key]; p != nil {
		return p
	}
	// A template that is called within an attribute has a twin, which only
	// html/template can look up.
	t := c.set.Lookup(name)
	if t == nil || t.Tree == nil {
		refuse("template %q is out of reach", name)
	}
	p := new(part)
	c.parts[key] = p
	s := &scope{compiler: c, part: p}
	s.declare("$", dot)
	p.steps = s.list(t.Tree.Root, dot)
	return p
}

// A scope is where the compiler stands in a template. Variables are known by their
// place among those that can be seen there.
type scope struct {
	*compiler
	part *part
	vars []variable
}

type variable struct {
	name string
	typ  reflect.Type
}

// declare returns the slot of a new variable.
func (s *scope) declare(name string, t reflect.Type) int {
	s.vars = append(s.vars, variable{name, t})
	s.part.slots = max(s.part.slots, len(s.vars))
	return len(s.vars) - 1
}

// leave forgets the variables declared since there were n.
func (s *scope) leave(n int) { s.vars = s.vars[:n] }

// list compiles nodes, whose variables end with them. There may be none at all.
func (s *scope) list(n *parse.ListNode, dot reflect.Type) steps {
	if n == nil {
		return nil
	}
	defer s.leave(len(s.vars))
	var list steps
	for _, n := range n.Nodes {
		list = append(list, s.node(n, dot))
	}
	return list
}

func (s *scope) node(n parse.Node, dot reflect.Type) step {
	switch n := n.(type) {
	case *parse.TextNode:
		text := n.Text
		return func(r *run, _ reflect.Value) { r.out = append(r.out, text...) }
	case *parse.ActionNode:
		return s.action(n.Pipe, dot)
	case *parse.IfNode:
		return s.ifNode(&n.BranchNode, dot)
	case *parse.WithNode:
		return s.with(&n.BranchNode, dot)
	case *parse.RangeNode:
		return s.rangeOver(&n.BranchNode, dot)
	case *parse.TemplateNode:
		return s.template(n, dot)
	}
	refuse("%s", n)
	return nil
}

// action prints a value, or declares variables.
func (s *scope) action(pipe *parse.PipeNode, dot reflect.Type) step {
	if len(pipe.Decl) > 0 {
		x := s.pipe(pipe, dot)
		return func(r *run, dot reflect.Value) { x.get(r, dot) }
	}
	x := s.command(pipe.Cmds[0], dot)
	print := printerOf(x.typ, pipe.Cmds[1:])
	return func(r *run, dot reflect.Value) { r.out = print(r.out, x.get(r, dot)) }
}

func (s *scope) ifNode(n *parse.BranchNode, dot reflect.Type) step {
	defer s.leave(len(s.vars))
	test := s.test(n.Pipe, dot)
	then, otherwise := s.list(n.List, dot), s.list(n.ElseList, dot)
	return func(r *run, dot reflect.Value) {
		if test(r, dot) {
			then.do(r, dot)
		} else {
			otherwise.do(r, dot)
		}
	}
}

func (s *scope) with(n *parse.BranchNode, dot reflect.Type) step {
	defer s.leave(len(s.vars))
	x := s.pipe(n.Pipe, dot)
	truth := truthOf(x.typ)
	then, otherwise := s.list(n.List, x.typ), s.list(n.ElseList, dot)
	return func(r *run, dot reflect.Value) {
		if v := x.get(r, dot); truth(v) {
			then.do(r, v)
		} else {
			otherwise.do(r, dot)
		}
	}
}

func (s *scope) rangeOver(n *parse.BranchNode, dot reflect.Type) step {
	defer s.leave(len(s.vars))
	list := s.single(n.Pipe, dot)
	if k := list.typ.Kind(); k != reflect.Slice && k != reflect.Array {
		refuse("range over %s", list.typ)
	}
	// In the else part the loop's variables would stand for the list itself, so it
	// is compiled before they are declared.
	otherwise := s.list(n.ElseList, dot)
	index, elem, of := -1, -1, list.typ.Elem()
	for i, v := range n.Pipe.Decl {
		if i < len(n.Pipe.Decl)-1 {
			index = s.declare(v.Ident[0], intType)
		} else {
			elem = s.declare(v.Ident[0], of)
		}
	}
	each := s.list(n.List, of)
	return func(r *run, dot reflect.Value) {
		v := list.get(r, dot)
		n := v.Len()
		for i := range n {
			x := v.Index(i)
			if index >= 0 {
				r.vars[r.base+index] = reflect.ValueOf(i)
			}
			if elem >= 0 {
				r.vars[r.base+elem] = x
			}
			each.do(r, x)
		}
		if n == 0 {
			otherwise.do(r, dot)
		}
	}
}

func (s *scope) template(n *parse.TemplateNode, dot reflect.Type) step {
	if n.Pipe == nil {
		p := s.compiler.part(n.Name, nil)
		return func(r *run, _ reflect.Value) { r.call(p, reflect.Value{}) }
	}
	x := s.pipe(n.Pipe, dot)
	p := s.compiler.part(n.Name, x.typ)
	return func(r *run, dot reflect.Value) { r.call(p, x.get(r, dot)) }
}
