package job

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/starter/kinds"
	"seamrail/cmd/internal/textfile"
	"seamrail/motion/base/source"
	"seamrail/motion/spec/rig"
)

// bareName is what faults call a shot that values describe without a file.
const bareName = "the flags"

// bare is a shot that values describe by themselves: the built-in clock, and moves whose
// ends or turns the values say.
type bare struct {
	axis string // that carries the camera; "" where nothing is said of it
	move string // of that axis
	turn string // the axis that turns; "" where nothing is said of it
}

// bare tells whether values describe a whole shot: without a file, a move is named, or
// both ends of one are given. A turn alone changes the built-in shot.
func (x Source) bare() (b bare, ok bool) {
	if x.Shot != "" {
		return b, false
	}
	of := map[string]string{}
	for _, v := range x.Over {
		of[v.Key] = v.Text
	}
	has := func(key string) bool { _, there := of[key]; return there }
	if !has("move") && !(has("from") && has("to")) {
		return b, false
	}
	bench := x.bench()
	turn := Table.Move
	if b.move = of["move"]; !has("move") || b.move == turn {
		b.move = Rail.Move
	}
	if of["move"] != turn || has("from") || has("to") {
		b.axis = bench.Rail.Name
	}
	if of["move"] == turn || has("turns") {
		b.turn = bench.Table
	}
	switch {
	case x.Axis != "" && b.axis != "":
		b.axis = x.Axis
	case x.Axis != "":
		b.turn = x.Axis
	}
	return b, true
}

// bench says which axes of the rig are meant: those of the built-in one, unless another
// is named that can be read.
func (x Source) bench() kinds.Bench {
	names := kinds.Bench{Rail: rig.Axis{Name: Rail.Axis}, Table: Table.Axis}
	if x.Rig == "" {
		return names
	}
	data, err := textfile.Read(x.Rig)
	if err != nil {
		return names // loading it will say so
	}
	r, _, _ := rig.Understand(x.Rig, data)
	b := kinds.BenchOf(r, true)
	if b.Rail.Name == "" {
		b.Rail = names.Rail
	}
	if b.Table == "" {
		b.Table = names.Table
	}
	return b
}

// of is the axis that a value speaks of.
func (b bare) of(v Value) string {
	if b.axis == "" || v.Of == Table || v.Key == "move" && v.Text == Table.Move {
		return b.turn
	}
	return b.axis
}

// text is the shot file, into which the moves and the values are put.
func (b bare) text() []byte {
	var title []string
	for _, m := range b.moves() {
		axis := strings.TrimSuffix(strings.TrimPrefix(m.Path, "axis."), ".move")
		title = append(title, axis+", "+strings.ReplaceAll(m.Text, "-", " "))
	}
	name := strings.Join(title, "; ")
	first, size := utf8.DecodeRuneInString(name)
	return fmt.Appendf(nil, "shot = %q\n\n[clock]\ncapture = \"119.88\"\nplayback = \"23.976\"\nloop = \"6 s\"\n\n[rig]\nfile = %q\n",
		string(unicode.ToUpper(first))+name[size:], starter.RigName)
}

// moves are what its axes do, as if the file said so.
func (b bare) moves() (out []source.Override) {
	for _, a := range [][2]string{{b.axis, b.move}, {b.turn, Table.Move}} {
		if a[0] != "" {
			out = append(out, source.Override{Path: source.Join("axis", a[0]) + ".move", Text: a[1], Origin: bareName})
		}
	}
	return out
}
