package note

import (
	"regexp"

	"guidecoat/journal/source"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
)

// NearItem is a line that was meant as a task-list item but is none in Markdown.
// As plain words what is outstanding would be forgotten.
const NearItem source.Flaw = "near-item"

// nearItem matches the beginning of such a line: a box that is empty, padded or
// ticked with another mark, one that touches its dash, has none or stands behind a
// long one or another space, a drawn one, or TODO in capitals. A bracket or colon behind the box makes it a link.
var nearItem = regexp.MustCompile(`^(?:(?:[-*+]|[–—•·‣▪])[\s\p{Z}\p{Cf}]*)?(?:TODO\b|DONE\b|todo |\[[ \t]*(?:[xXvVoO]|(?i:done|ok)|[^\pL\pN\s\[\]^\\])?\x{FE0F}?[ \t]*\](?:$|[^\[(:])|[☐☑☒✅])`)

// Round boxes, and those within emphasis, are taken for some at the beginning of an
// item alone, and whole items in code only where its indentation made it code.
var (
	otherBox  = regexp.MustCompile(`^(?:[({][ \t]*[xX✓✔]?[ \t]*[)}][ \t]|\\\[[ \t]*[xX]?[ \t]*\\?\]|(?:[*_]{1,3}|~~)\[[ \t]*[xX]?[ \t]*\](?:$|[^\[(:]))`)
	wholeItem = regexp.MustCompile(`^[-*+][ \t]+\[[ xX]\][ \t]`)
)

// findNearItems reports the lines of a paragraph, or of an item's words, that are
// nearly task-list items.
func findNearItems(n *Note, block ast.Node) {
	_, isItem := block.FirstChild().(*east.TaskCheckBox)
	lines := block.Lines()
	_, inItem := block.Parent().(*ast.ListItem)
	_, isCode := block.(*ast.CodeBlock)
	for i := range lines.Len() {
		if i == 0 && isItem {
			continue
		}
		seg := lines.At(i)
		start, end := trim(n.File.Data, seg.Start, seg.Stop)
		if start == end || !beginsNearItem[n.File.Data[start]] {
			continue
		}
		text := n.File.Data[start:end]
		if isCode && wholeItem.Match(text) || !isCode && nearItem.Match(text) || inItem && i == 0 && otherBox.Match(text) {
			n.fault(source.Fault{Flaw: NearItem, Span: n.File.Span(start, end), Word: string(text)})
			n.Lost++
		}
	}
}

// beginsNearItem are the first bytes of what these match; 0xC2 and 0xE2 are those of
// points, long dashes and drawn boxes.
var beginsNearItem = [256]bool{'-': true, '*': true, '+': true, '[': true, '(': true, '_': true, '~': true, '{': true, '\\': true, 'T': true, 'D': true, 't': true, 0xC2: true, 0xE2: true}
