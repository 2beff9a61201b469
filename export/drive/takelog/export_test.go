package takelog

import "io"

// Read reads a log to its end, or to where it was cut, and holds all takes. The
// error is the reader's; lines that are no record are counted and passed over.
func Read(r io.Reader) (Log, error) {
	var l Log
	err := l.read(r, func(at int, rec Record) {
		if rec.Kind == Begun {
			l.Takes = append(l.Takes, begun(rec))
		} else {
			l.Takes[at].tell(rec)
		}
	})
	return l, err
}
