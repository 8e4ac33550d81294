package note

import (
	"bytes"
	"fmt"

	"guidecoat/journal/source"
)

// ControlCharacter is a character that is a command to a machine and no text. Some
// programs end a line there or hide what follows, so that people see another line
// than is read.
const ControlCharacter source.Flaw = "control-character"

// otherText reports a file that is text of another sort: none of its lines could be
// told apart. It tells whether it is one.
func (n *Note) otherText() bool {
	data := n.File.Data
	f := source.Fault{Flaw: NotUTF8, Word: "UTF-16", Span: n.File.Span(0, 0)}
	switch {
	case isUTF16(data):
	case bytes.IndexByte(data, '\n') < 0 && bytes.IndexByte(bytes.TrimRight(data, "\r"), '\r') >= 0:
		at := bytes.IndexByte(data, '\r')
		f = source.Fault{Flaw: ControlCharacter, Span: n.File.Span(at, at+1), Why: "every line of the file ends in a carriage return alone", Help: otherEnds}
	default:
		return false
	}
	n.OtherText, n.Unread, n.Lost, n.Faults = true, true, 1, []source.Fault{f}
	return true
}

const otherEnds = "Save the file with the line ends of Unix (LF) or Windows (CRLF)."

// isUTF16 tells whether a file is UTF-16: by its byte order mark, or because nearly
// every second of its first bytes is zero, as in UTF-16 those of Latin letters are.
func isUTF16(data []byte) bool {
	if bytes.HasPrefix(data, []byte("\xFF\xFE")) || bytes.HasPrefix(data, []byte("\xFE\xFF")) {
		return true
	}
	var zeros [2]int
	begin := data[:min(len(data), 1024)]
	for i, b := range begin {
		if b == 0 {
			zeros[i%2]++
		}
	}
	few, many := min(zeros[0], zeros[1]), max(zeros[0], zeros[1])
	return many > len(begin)/4 && few < many/8+1
}

// checkControls records the first control character of every line that has one.
func checkControls(n *Note) {
	data := n.File.Data
	for at := 0; at < len(data); {
		i := controlIn(data[at:])
		if i < 0 {
			return
		}
		at += i
		f := source.Fault{Flaw: ControlCharacter, Span: n.File.Span(at, at+1), Why: fmt.Sprintf("the control character U+%04X stands here", data[at]), Help: "Delete it."}
		switch data[at] {
		case '\r':
			f.Why, f.Help = "a carriage return stands alone here, which ends the line for some programs and not for others", otherEnds
		case 0xC2:
			f.Span = n.File.Span(at, at+2)
			f.Why = fmt.Sprintf("the control character U+%04X stands here", data[at+1])
		}
		n.fault(f)
		_, at = cutLine(data, at)
	}
}

// controlIn returns where the first control character stands, -1 where none does.
// Tabs are none, nor is what ends a line. Those of the second set are two bytes.
func controlIn(data []byte) int {
	for i, b := range data {
		if !mayControl[b] {
			continue
		}
		switch {
		case b == '\r' && (i+1 == len(data) || data[i+1] == '\n'):
		case b == 0xC2 && (i+1 == len(data) || data[i+1] >= 0xA0 || data[i+1] < 0x80):
		default:
			return i
		}
	}
	return -1
}

// mayControl are the bytes that control characters begin with.
var mayControl = func() (t [256]bool) {
	for b := range byte(' ') {
		t[b] = b != '\t' && b != '\n'
	}
	t[0x7F], t[0xC2] = true, true
	return t
}()
