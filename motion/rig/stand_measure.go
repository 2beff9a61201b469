package rig

import (
	"fmt"
	"regexp"
	"strings"

	"seamrail/motion/exact"
	"seamrail/motion/source"
	"seamrail/motion/unit"
)

// defaultReaction is the standard uncertainty of a press of a stopwatch, s: a
// person who watches a mark come round is off by about a tenth of a second,
// early or late (common practice). A second would be no stopwatch.
var defaultReaction, mostReaction = exact.New(1, 10), exact.Int(1)

// maxTurns is more turns than anyone counts.
const maxTurns = 100_000

// reading is one line of what was measured: so many turns in so much of value.
type reading struct {
	turns int64
	value exact.Rat // s, or frames
}

var turnsIn = regexp.MustCompile(`^\s*([0-9]+)\s*turns?\s+in\s+(.+)$`)

// readings reads lines such as "20 turns in 412.3 s"; without turns it is one.
func (b speedBuilder) readings(t source.Texts, key string, dim unit.Dimension) ([]reading, bool) {
	path, all := b.path+key, true
	var out []reading
	for i, item := range t.Items {
		at := path
		if !t.Single {
			at = fmt.Sprintf("%s[%d]", path, i+1)
		}
		r, ok := b.reading(item, at, dim)
		all = all && ok
		out = append(out, r)
	}
	if t.Set && len(t.Items) == 0 {
		b.report.Add(t.Place(), path, "", "must have a line", `such as "20 turns in 412.3 s"`)
		return nil, false
	}
	return out, all
}

func (b speedBuilder) reading(t source.Text, path string, dim unit.Dimension) (reading, bool) {
	if !t.Set {
		return reading{}, false
	}
	r, rest := reading{turns: 1}, t.Text
	if m := turnsIn.FindStringSubmatch(t.Text); m != nil {
		n, ok := b.report.Whole(source.Text{Text: strings.TrimLeft(m[1], "0") + "", Line: t.Line, Column: t.Column, Origin: t.Origin, Set: true}, path, 1, maxTurns)
		if !ok {
			return r, false
		}
		r.turns, rest = n, m[2]
	}
	q, err := unit.ParseAs(rest, dim)
	if err != nil || q.Value.Sign() <= 0 {
		b.report.Wrong(t, path, "must be so many turns in "+dim.String()+" above 0", fmt.Sprintf("such as %q", example(dim)))
		return r, false
	}
	r.value = q.Value
	return r, true
}

func example(dim unit.Dimension) string {
	if dim == unit.Frames {
		return "3 turns in 7341 frames"
	}
	return "20 turns in 412.3 s"
}
