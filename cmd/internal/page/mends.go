package page

import (
	"context"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/move"
)

// Mend is what would do for a fault of a text, with the edits that make it, which were tried:
// the fault is gone, and no other came.
type Mend struct {
	Text  string `json:"text"`
	Edits []Edit `json:"edits"`
	File  string `json:"file,omitempty"` // the rig's, where they are made in that

	fits bool // no more than that: nobody has said that it is so
}

// What is tried of a text with faults: as many as anyone mends before it is planned anew.
const (
	maxMended = 8 // faults
	maxMends  = 4 // of each
)

// mended gives the faults of a text their mends, unless ctx ends before: those in the shot,
// those in the file of its rig and those in what lies under it.
func (s *desk) mended(ctx context.Context, text string, err error, out []Fault) {
	var list fault.List
	if !errors.As(err, &list) {
		return
	}
	list = list.Sorted()
	_, _, unread := s.doc.decode(text)
	bench, onBench := s.doc.benchOf(text)
	defer func() { _, _, _ = s.doc.decode(text) }() // the files of what was tried are not watched
	for i, f := range list[:min(len(list), maxMended)] {
		inShot := func(m Mend) bool {
			changed, err := s.edited(ctx, text, m.Edits)
			return err == nil && gone(s.faultsOfText(ctx, changed, unread == nil), f, list)
		}
		switch {
		case f.File == "" || f.File == s.doc.name:
			out[i].Mends = mends(proposed(f, []byte(text)), inShot)
		case onBench && f.File == bench.name:
			out[i].Mends = mends(ofBench(proposed(f, bench.text), bench.name), func(m Mend) bool {
				changed, err := rigEdit{File: bench.name, Edits: m.Edits}.applied(bench.text)
				return err == nil && ctx.Err() == nil && gone(bench.faults(changed), f, list)
			})
		default:
			out[i].Mends = mends(overIt(proposed(f, nil)), inShot)
		}
	}
}

// mends are those of the proposed that make it.
func mends(proposed []Mend, makes func(Mend) bool) []Mend {
	out := []Mend{}
	for _, m := range proposed {
		same := func(o Mend) bool { return o.Text == m.Text }
		if len(out) < maxMends && !slices.ContainsFunc(out, same) && makes(m) {
			out = append(out, m)
		}
	}
	return out
}

// faultsOfText are the faults of a text. Where another could not be read, it is not known what
// its plan would lack, and nobody asks.
func (s *desk) faultsOfText(ctx context.Context, text string, planned bool) error {
	_, _, err := s.doc.decode(text)
	if err == nil && planned {
		_, err = s.plannedTo(ctx, text, posed)
	}
	return err
}

// gone tells whether an error has a fault no more that there was, and none that there was not.
func gone(err error, f fault.Fault, had fault.List) bool {
	var list fault.List
	if err != nil && !errors.As(err, &list) {
		return false
	}
	return len(besides(list, had)) == 0 && !slices.ContainsFunc(list, func(x fault.Fault) bool {
		return x.File == f.File && x.Axis == f.Axis && x.Quantity == f.Quantity
	})
}

// besides are the faults of a list that another has not.
func besides(list, had fault.List) fault.List {
	alike := func(a, b fault.Fault) bool {
		return a.File == b.File && a.Axis == b.Axis && a.Quantity == b.Quantity && a.Bound == b.Bound
	}
	return slices.DeleteFunc(slices.Clone(list), func(x fault.Fault) bool {
		return slices.ContainsFunc(had, func(y fault.Fault) bool { return alike(x, y) })
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
	example = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`such as (?:[\w-]+ = )?(?:"([^"]+)"|([^",;]+)$)`) })
	choices = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(?:one of(?: those the controller has,)?|^it has|^free:|^in its folder there is) ([^;]+)`)
	})
	needless = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`leave (?:it|the table|([a-z-]+)) out|keep one of the two`)
	})
	assigned = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`([a-z-]+(?:\.[a-z-]+)*) = "([^"]+)"`) })
	below    = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`less than (\d+) frames`) })
	between  = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`from (\S+(?: [a-zA-Z%]+)?) to (\S+(?: [a-zA-Z%]+)?)$`)
	})
	bound   = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`at (?:least|most) (\S+(?: [a-zA-Z%]+)?)`) })
	amounts = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`"([^"]+)"|(-?[0-9][0-9./]*(?: (?:mm|deg|s|ms|frames|turns|%|K|lm|px)\b)?)`)
	})
)

// proposed is what the words of a fault may mean as edits of the file that it is in.
func proposed(f fault.Fault, file []byte) (out []Mend) {
	for _, e := range f.Edits {
		out = append(out, mend(f.Fit, Edit{Path: e.Path, Value: &e.Text}))
	}
	for _, path := range pathsOf(f) {
		leaf := path[strings.LastIndexByte(path, '.')+1:]
		without := mend("without "+leaf, Edit{Do: doRemove, Path: path})
		if f.Bound == source.NoKey {
			if m := meant().FindStringSubmatch(f.Fit); m != nil {
				out = append(out, mend(strconv.Quote(m[1])+" in place of "+leaf, Edit{Do: doRename, Path: path, Value: &m[1]}))
			}
			out = append(out, without)
			continue
		}
		if f.Fit == swapped {
			out = append(out, swap(file, path, leaf)...)
		}
		for _, v := range meantWords(f) {
			out = append(out, mend(leaf+" = "+strconv.Quote(v), Edit{Path: path, Value: &v}))
		}
		for _, v := range meantValues(f) {
			m := mend(leaf+" = "+strconv.Quote(v), Edit{Path: path, Value: &v})
			m.fits = true
			out = append(out, m)
		}
		table := path[:strings.LastIndexByte(path, '.')+1]
		for _, m := range assigned().FindAllStringSubmatch(f.Fit, -1) {
			at := m[1]
			if !strings.Contains(at, ".") {
				at = table + at
			}
			out = append(out, mend(m[0], Edit{Path: at, Value: &m[2]}))
		}
		if m := needless().FindStringSubmatch(f.Fit); m != nil && m[1] != "" {
			out = append(out, mend("without "+m[1], Edit{Do: doRemove, Path: table + m[1]}))
		} else if m != nil {
			out = append(out, without)
		}
	}
	return out
}

func mend(text string, edits ...Edit) Mend { return Mend{Text: text, Edits: edits} }

// swapped is what is said of two ends of which the first is to be the second.
const swapped = "swap the two"

// swap is two values in each other's place.
func swap(file []byte, path, leaf string) []Mend {
	a, ok := source.Value(file, path+"[1]")
	b, ok2 := source.Value(file, path+"[2]")
	if !ok || !ok2 {
		return nil
	}
	return []Mend{mend(fmt.Sprintf("%s = %q to %q", leaf, b, a), Edit{Path: path + "[1]", Value: &b}, Edit{Path: path + "[2]", Value: &a})}
}

// ofBench are mends as the file of a rig takes them: a value that no more than fits there holds
// the place of one that is to be measured.
func ofBench(list []Mend, name string) []Mend {
	for i, m := range list {
		list[i].File = name
		if m.fits {
			list[i].Edits[0].Do = doMeasure
			list[i].Text += ", to be measured"
		}
	}
	return list
}

// overIt are mends of what lies under the shot: another value for this shot alone. What the file
// there has stays as it is for all others.
func overIt(list []Mend) []Mend {
	out := slices.DeleteFunc(list, func(m Mend) bool {
		return slices.ContainsFunc(m.Edits, func(e Edit) bool { return e.Do != "" })
	})
	for i := range out {
		out[i].Text += ", for this shot alone"
	}
	return out
}

// meantWords are the words that a fault says may stand there, the likeliest first.
func meantWords(f fault.Fault) (out []string) {
	if m := meant().FindStringSubmatch(f.Bound + "; " + f.Fit); m != nil {
		out = append(out, m[1])
	}
	for _, text := range []string{f.Fit, f.Bound} {
		if m := choices().FindStringSubmatch(text); m != nil {
			out = append(out, strings.Split(m[1], ", ")...)
		}
	}
	return out
}

// meantValues are the amounts that a fault speaks of, the likeliest first.
func meantValues(f fault.Fault) (out []string) {
	if v, negative := strings.CutPrefix(strings.Trim(f.Value, `"`), "-"); negative {
		out = append(out, v)
	}
	if m := example().FindStringSubmatch(f.Bound + "; " + f.Fit); m != nil {
		out = append(out, m[1]+m[2])
	}
	for _, m := range amounts().FindAllStringSubmatch(f.Fit, -1) {
		out = append(out, strings.TrimRight(m[1]+m[2], "./"))
	}
	if m := below().FindStringSubmatch(f.Fit); m != nil {
		n, _ := strconv.ParseInt(m[1], 10, 64)
		out = append(out, move.FramesText(n/2))
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
