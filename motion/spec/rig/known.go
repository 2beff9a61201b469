package rig

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/base/source"
)

// Known says how a line of a rig file is known.
type Known int

// The ways to know a line. One without a mark is its author's word.
const (
	Unmarked  Known = iota
	Read            // the controller printed it
	Guessed         // it usually is so, and nobody has looked
	ToMeasure       // what stands there holds a place: a ruler, a scale or a person has to tell
)

// marks are how a remark begins that says how its line is known.
var marks = [...]string{Read: "read", Guessed: "guessed", ToMeasure: "to be measured"}

// String is the mark: "read", "guessed", "to be measured"; "" for none.
func (k Known) String() string { return marks[k] }

// Remark is the remark of a line that is known so, with what there is to say of it.
func (k Known) Remark(words string) string {
	if words == "" {
		return "# " + k.String()
	}
	return "# " + k.String() + ": " + words
}

// knownBy reads a remark: how its line is known, and what it says besides.
func knownBy(remark string) (Known, string) {
	for k := Read; int(k) < len(marks); k++ {
		rest, ok := strings.CutPrefix(remark, marks[k])
		if rest = strings.TrimSpace(rest); ok && (rest == "" || rest[0] == ':') {
			return k, strings.TrimSpace(strings.TrimPrefix(rest, ":"))
		}
	}
	return Unmarked, ""
}

// Doubt is a line of a rig file that is marked as no more than a guess, or as a question.
type Doubt struct {
	Key   string // "axis.rail.travel"; of the header of an axis "axis.rail"
	Value string // as it stands there; "" of a header
	Known Known  // Guessed or ToMeasure
	Why   string // as the remark says
	File  string
	Line  int
}

// Where is the file and the line.
func (d Doubt) Where() string { return fmt.Sprintf("%s:%d", d.File, d.Line) }

// Axis is the name of the axis that it is of, "" for none.
func (d Doubt) Axis() string {
	rest, ok := strings.CutPrefix(d.Key, "axis.")
	if !ok {
		return ""
	}
	name, _, _ := strings.Cut(rest, ".")
	return name
}

// Marked returns the lines of a rig file that carry a mark, of all marks, in order.
func Marked(file string, data []byte) []Doubt {
	known, why := remarks(string(data))
	if len(known) == 0 {
		return nil
	}
	doc, ok := source.Parse("", data, &source.Report{File: file})
	if !ok {
		return nil
	}
	at := func(key, value string, line int) Doubt {
		return Doubt{Key: key, Value: value, Known: known[line], Why: why[line], File: file, Line: line}
	}
	var out []Doubt
	for _, v := range doc.Values() {
		if known[v.Text.Line] != Unmarked {
			out = append(out, at(v.Path, v.Text.Text, v.Text.Line))
		}
	}
	for i, line := range strings.Split(string(data), "\n") {
		head, _ := source.Remark(line)
		head = strings.TrimSpace(head)
		if name, is := strings.CutPrefix(head, "["); is && known[i+1] != Unmarked && !strings.HasPrefix(name, "[") {
			out = append(out, at(strings.TrimSuffix(name, "]"), "", i+1))
		}
	}
	slices.SortStableFunc(out, func(a, b Doubt) int { return cmp.Compare(a.Line, b.Line) })
	return out
}

// remarks are the marks of all lines and what they say, by the number of the line. A
// remark that has a line of its own marks nothing.
func remarks(text string) (map[int]Known, map[int]string) {
	known, why := map[int]Known{}, map[int]string{}
	for i, line := range strings.Split(text, "\n") {
		before, remark := source.Remark(line)
		if k, words := knownBy(remark); k != Unmarked && strings.TrimSpace(before) != "" {
			known[i+1], why[i+1] = k, words
		}
	}
	return known, why
}

// doubts are the lines of axes and controller that are not known for sure. They are told
// among what was filled in, each with its place: a guess is no measurement.
func doubts(report *source.Report, data []byte) []Doubt {
	all := slices.DeleteFunc(Marked(report.File, data), func(d Doubt) bool {
		return d.Known == Read || d.Axis() == "" && !strings.HasPrefix(d.Key, "controller.")
	})
	for _, d := range all {
		words := fmt.Sprintf("%s in %s", d.Known, d.Where())
		if d.Why != "" {
			words += ": " + d.Why
		}
		report.Default(d.Key, cmp.Or(d.Value, "as it is named"), words)
	}
	return all
}

// Set is a rig file with the value at a path changed, and how that is known now in place of
// a mark that it was read, guessed or to be measured; "" leaves that. A value that was not
// there takes the place of a question that stands behind a #, if there is one.
func Set(file string, data []byte, path, text, how string) ([]byte, error) {
	_, was := source.Value(data, path)
	if !was {
		data = answered(data, path)
	}
	_, asked := source.Value(data, path)
	out, err := source.Set(file, data, path, text)
	if err != nil || how == "" {
		return out, err
	}
	return settled(out, path, how, !was && !asked), nil
}

// Hold is Set of a value that only holds a place: its line is marked as to be measured, and
// keeps what it said besides.
func Hold(file string, data []byte, path, text, why string) ([]byte, error) {
	out, err := Set(file, data, path, text, "")
	if err != nil {
		return nil, err
	}
	return remarked(out, path, func(_ Known, said string) string {
		if said != "" {
			why += "; " + said
		}
		return ToMeasure.Remark(why)
	}), nil
}

// answered is a rig file in which the line of a path that stands behind a #, since it is to
// be measured, is a line like any other.
func answered(data []byte, path string) []byte {
	dot := strings.LastIndexByte(path, '.')
	lines, within := strings.SplitAfter(string(data), "\n"), false
	for i, line := range lines {
		head, _ := source.Remark(line)
		if head = strings.TrimSpace(head); strings.HasPrefix(head, "[") {
			within = head == "["+path[:max(dot, 0)]+"]"
		}
		bare, is := strings.CutPrefix(line, "# ")
		key, rest, set := strings.Cut(bare, "=")
		if !within || !is || !set || strings.TrimSpace(key) != path[dot+1:] {
			continue
		}
		if _, remark := source.Remark(rest); remark != "" {
			if known, _ := knownBy(remark); known == ToMeasure {
				lines[i] = bare
				return []byte(strings.Join(lines, ""))
			}
		}
	}
	return data
}

// settled is a rig file in which the mark behind the value at a path has made room for
// how the value is known now, such as "measured with a ruler". A line without a mark, and
// all else, stays as it is, but for a line that is new.
func settled(data []byte, path, how string, isNew bool) []byte {
	return remarked(data, path, func(known Known, said string) string {
		if known != Unmarked || isNew && said == "" {
			return "# " + how
		}
		return ""
	})
}

// remarked is a rig file with another remark behind the value at a path, by how the line was
// known and what it said; "" leaves it.
func remarked(data []byte, path string, remark func(known Known, said string) string) []byte {
	doc, ok := source.Parse("", data, &source.Report{})
	if !ok {
		return data
	}
	lines := strings.SplitAfter(string(data), "\n")
	for _, v := range doc.Values() {
		n := v.Text.Line
		if v.Path != path || n < 1 || n > len(lines) {
			continue
		}
		line := lines[n-1]
		before, was := source.Remark(line)
		known, said := knownBy(was)
		if known == Unmarked {
			said = was
		}
		now := remark(known, said)
		if now == "" {
			continue
		}
		if was == "" {
			before = strings.TrimRight(before, "\r\n") + "  "
		}
		lines[n-1] = before + now + line[len(strings.TrimRight(line, "\r\n")):]
	}
	return []byte(strings.Join(lines, ""))
}
