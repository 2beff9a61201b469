package page

import (
	"context"
	"errors"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
)

// Mend is what would do for a fault of a text, with the edits that make it, which were tried:
// the fault is gone, and no other came.
type Mend struct {
	Text  string `json:"text"`
	Edits []Edit `json:"edits"`
}

// What is tried of a text with faults: as many as anyone mends before it is planned anew.
const (
	maxMended = 8 // faults
	maxMends  = 4 // of each
)

// mended gives the faults of a text their mends, unless ctx ends before.
func (s *desk) mended(ctx context.Context, text string, err error, out []Fault) {
	var list fault.List
	if !errors.As(err, &list) {
		return
	}
	list = list.Sorted()
	_, _, unread := s.doc.decode(text)
	for i, f := range list[:min(len(list), maxMended)] {
		if f.File == "" || f.File == s.doc.name {
			out[i].Mends = s.mends(ctx, text, list, f, unread == nil)
		}
	}
}

// mends are what a fault says would do, as far as it does.
func (s *desk) mends(ctx context.Context, text string, all fault.List, f fault.Fault, planned bool) []Mend {
	out := []Mend{}
	for _, m := range proposed(f) {
		if len(out) == maxMends || slices.ContainsFunc(out, func(o Mend) bool { return o.Text == m.Text }) {
			continue
		}
		if changed, err := s.edited(ctx, text, m.Edits); err == nil && s.without(ctx, changed, f, all, planned) {
			out = append(out, m)
		}
	}
	return out
}

// without tells whether a text has a fault no more that another had, and none that it had not.
// Where the other could not be read, it is not known what its plan would lack, and nobody asks.
func (s *desk) without(ctx context.Context, text string, f fault.Fault, had fault.List, planned bool) bool {
	_, _, err := s.doc.decode(text)
	if err == nil && planned {
		_, err = s.plannedTo(ctx, text, posed)
	}
	var list fault.List
	if err != nil && !errors.As(err, &list) {
		return false
	}
	alike := func(a, b fault.Fault) bool { return a.Axis == b.Axis && a.Quantity == b.Quantity && a.Bound == b.Bound }
	return !slices.ContainsFunc(list, func(x fault.Fault) bool {
		return x.Axis == f.Axis && x.Quantity == f.Quantity || !slices.ContainsFunc(had, func(y fault.Fault) bool { return alike(x, y) })
	})
}

// pathsOf are where the value of a fault may stand: what is of an axis is told without its table.
func pathsOf(f fault.Fault) []string {
	if f.Axis == "" {
		return []string{f.Quantity}
	}
	path := source.Join("axis", f.Axis) + "." + f.Quantity
	return []string{path, "scene." + path}
}

var (
	meant   = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`did you mean "([^"]+)"`) })
	example = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`such as [\w-]+ = "?([^"]+)"?$`) })
	choices = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`one of (.+)$|^it has (.+)$`) })
	between = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`from (\S+(?: [a-zA-Z%]+)?) to (\S+(?: [a-zA-Z%]+)?)$`)
	})
	bound   = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`at (?:least|most) (\S+(?: [a-zA-Z%]+)?)`) })
	amounts = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`"([^"]+)"|(-?[0-9][0-9./]*(?: (?:mm|deg|s|ms|frames|turns|%|K|lm|px)\b)?)`)
	})
)

// proposed is what the words of a fault may mean as edits.
func proposed(f fault.Fault) (out []Mend) {
	for _, e := range f.Edits {
		out = append(out, Mend{f.Fit, []Edit{{Path: e.Path, Value: &e.Text}}})
	}
	for _, path := range pathsOf(f) {
		leaf := path[strings.LastIndexByte(path, '.')+1:]
		if f.Bound == source.NoKey {
			if m := meant().FindStringSubmatch(f.Fit); m != nil {
				out = append(out, Mend{strconv.Quote(m[1]) + " in place of " + leaf, []Edit{{Do: doRename, Path: path, Value: &m[1]}}})
			}
			out = append(out, Mend{"without " + leaf, []Edit{{Do: doRemove, Path: path}}})
			continue
		}
		for _, v := range meantValues(f) {
			out = append(out, Mend{leaf + " = " + strconv.Quote(v), []Edit{{Path: path, Value: &v}}})
		}
	}
	return out
}

// meantValues are the values that a fault speaks of, the likeliest first.
func meantValues(f fault.Fault) (out []string) {
	for _, said := range []*regexp.Regexp{meant(), example()} {
		if m := said.FindStringSubmatch(f.Bound + "; " + f.Fit); m != nil {
			out = append(out, m[1])
		}
	}
	for _, m := range amounts().FindAllStringSubmatch(f.Fit, -1) {
		out = append(out, strings.TrimRight(m[1]+m[2], "./"))
	}
	for _, text := range []string{f.Bound, f.Fit} {
		if m := choices().FindStringSubmatch(text); m != nil {
			out = append(out, strings.Split(m[1]+m[2], ", ")...)
		}
	}
	if m := between().FindStringSubmatch(f.Bound); m != nil {
		ends := m[1:]
		if beyond(f.Value, m[1]) {
			slices.Reverse(ends)
		}
		out = append(out, ends[0])
	}
	if m := bound().FindStringSubmatch(f.Bound); m != nil {
		out = append(out, m[1])
	}
	return out
}

// beyond tells whether a value is above a bound, as far as both begin with a number.
func beyond(value, low string) bool {
	v, err := leading(value)
	l, err2 := leading(low)
	return err == nil && err2 == nil && v > l
}

func leading(text string) (float64, error) {
	return strconv.ParseFloat(strings.TrimSpace(number().FindString(strings.Trim(text, `"`))), 64)
}
