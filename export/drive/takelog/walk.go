package takelog

import (
	"fmt"
	"io"
)

// Walk reads a log twice and calls each with its takes, in the order they began.
// At no time does it hold more of them than had begun before one of them ended, and
// the marks, of which there is one here and there. An error of each ends it and is
// returned.
func Walk(r io.ReadSeeker, each func(Take) error) (Log, error) {
	return walk(r, nil, each)
}

// Pick reads a log and holds those of its takes whose marks are wanted: whether
// they are kept, their notes, and how late hands were. Where there are none it reads
// the log once.
func Pick(r io.ReadSeeker, wanted func(marks Take) bool) (Log, error) {
	var takes []Take
	l, err := walk(r, wanted, func(t Take) error {
		if wanted(t) {
			takes = append(takes, t)
		}
		return nil
	})
	l.Takes = takes
	return l, err
}

func walk(r io.ReadSeeker, wanted func(marks Take) bool, each func(Take) error) (Log, error) {
	var first Log
	told := map[int]*Take{} // the marks of takes that have any
	var ends []int          // how many are told of each take
	size := &counted{r: r}
	err := first.read(size, func(at int, rec Record) {
		switch rec.Kind {
		case Begun:
			ends = append(ends, 0)
		case Ended:
			ends[at]++
		default:
			if told[at] == nil {
				told[at] = &Take{}
			}
			told[at].tell(rec)
		}
	})
	if err != nil || wanted != nil && !anyOf(told, wanted) {
		return first, err
	}
	if _, err := r.Seek(0, io.SeekStart); err != nil {
		return first, fmt.Errorf("reading the take log: %w", err)
	}
	w := walker{each: each, ends: ends, told: told}
	var again Log
	err = again.read(io.LimitReader(r, size.n), w.record) // it may have grown meanwhile
	if w.err != nil {
		err = w.err
	}
	return first, err
}

func anyOf(told map[int]*Take, wanted func(Take) bool) bool {
	for _, t := range told {
		if wanted(*t) {
			return true
		}
	}
	return false
}

// walker passes takes on as soon as all is told of them.
type walker struct {
	each func(Take) error
	ends []int // that are yet to come
	told map[int]*Take
	open []Take // begun, and not passed on yet
	from int    // where the first of them stands
	err  error
}

func (w *walker) record(at int, r Record) {
	switch {
	case w.err != nil || at < w.from || at >= len(w.ends): // or it has been rewritten
	case r.Kind == Begun:
		w.open = append(w.open, begun(r))
	case r.Kind == Ended:
		w.open[at-w.from].tell(r)
		w.ends[at]--
	case r.Kind == Exposed && at-w.from < len(w.open):
		w.open[at-w.from].tell(r)
	}
	for len(w.open) > 0 && w.from < len(w.ends) && w.ends[w.from] == 0 && w.err == nil {
		t := w.open[0]
		if m := w.told[w.from]; m != nil {
			t.Marks = m.Marks
		}
		w.open, w.from = w.open[1:], w.from+1
		w.err = w.each(t)
	}
}

// counted counts the bytes that are read.
type counted struct {
	r io.Reader
	n int64
}

// Read reads on.
func (c *counted) Read(p []byte) (int, error) {
	n, err := c.r.Read(p)
	c.n += int64(n)
	return n, err
}
