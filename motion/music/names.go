package music

import (
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
)

// What a named time begins with.
const (
	beatWord   = "beat"
	barWord    = "bar"
	markerWord = "marker"
)

// Named tells whether a text names a moment rather than giving a time.
func Named(text string) bool {
	word, _, _ := strings.Cut(strings.TrimSpace(text), " ")
	return word == beatWord || word == barWord || word == markerWord
}

// Place reads a text that is Named: "beat 9", "beat 9.5", "bar 3", "bar 3 beat 2" or
// "marker splash".
func (m Music) Place(report *source.Report, t source.Text, path string) (Spot, bool) {
	word, rest, _ := strings.Cut(strings.TrimSpace(t.Text), " ")
	rest = strings.TrimSpace(rest)
	at, ok := exact.Rat{}, false
	switch word {
	case markerWord:
		at, ok = m.marker(report, t, path, rest)
	case barWord:
		at, ok = m.bar(report, t, path, rest)
	default:
		at, ok = m.beat(report, t, path, rest)
	}
	if !ok || m.Playback.Sign() == 0 {
		return Spot{}, false
	}
	if at.Sign() < 0 {
		report.Wrong(t, path, fmt.Sprintf("is %s s before the first frame", at.Neg().Decimal(3)), "name a later one")
		return Spot{}, false
	}
	if most.Less(at) {
		report.Wrong(t, path, fmt.Sprintf("is later than %s s", most), "name an earlier one")
		return Spot{}, false
	}
	return m.Spot(path, strings.TrimSpace(t.Text), at), true
}

// Score is the music of a loop or a clip, and what was taken from it.
type Score struct {
	Music
	Spots []Spot
	Loop  Length // of a loop that is counted in beats; else 0
}

// most, s, is a day and more: a beat beyond it is a slip of the hand.
var most = exact.Int(100_000)

// lacks reports that what a name stands on is not stated, and tells whether it is.
func (m Music) lacks(report *source.Report, t source.Text, path, what, key string, there bool) bool {
	if !there && !m.faulty {
		report.Wrong(t, path, "takes "+what, "give it, such as "+key+" under [music]")
	}
	return !there
}

func (m Music) beat(report *source.Report, t source.Text, path, number string) (exact.Rat, bool) {
	n, ok := counted(report, t, path, number, "a beat from 1", `"beat 9", or "beat 9.5" half a beat later`)
	if !ok || m.lacks(report, t, path, "a tempo", `tempo = "128 per minute"`, m.Tempo.Sign() > 0) {
		return exact.Rat{}, false
	}
	return m.Beat(n), true
}

// counted reads a number from 1.
func counted(report *source.Report, t source.Text, path, number, what, example string) (exact.Rat, bool) {
	n, err := exact.Parse(number)
	if err != nil || n.Less(exact.Int(1)) || mostCounted.Less(n) {
		report.Wrong(t, path, "must name "+what, "such as "+example)
		return n, false
	}
	return n, true
}

// mostCounted is beyond what anyone counts to, and keeps numbers short.
var mostCounted = exact.Int(1_000_000)

func (m Music) bar(report *source.Report, t source.Text, path, rest string) (exact.Rat, bool) {
	const example = `"bar 3" or "bar 3 beat 2"`
	number, within, also := strings.Cut(rest, " "+beatWord+" ")
	n, ok := counted(report, t, path, strings.TrimSpace(number), "a bar from 1", example)
	if ok && !n.IsInt() {
		report.Wrong(t, path, "must name a whole bar", "such as "+example)
		ok = false
	}
	beat := exact.Int(1)
	if ok && also {
		beat, ok = counted(report, t, path, strings.TrimSpace(within), "a beat of the bar from 1", example)
	}
	if !ok || m.lacks(report, t, path, "a tempo", `tempo = "128 per minute"`, m.Tempo.Sign() > 0) ||
		m.lacks(report, t, path, "the beats of a bar", "bar = 4", m.Bar > 0) {
		return exact.Rat{}, false
	}
	if last := exact.Int(m.Bar + 1); !beat.Less(last) {
		report.Wrong(t, path, fmt.Sprintf("must be within the %d beats of its bar", m.Bar), "name the beat of the bar it is in")
		return exact.Rat{}, false
	}
	return m.Beat(n.Sub(exact.Int(1)).Mul(exact.Int(m.Bar)).Add(beat)), true
}

func (m Music) marker(report *source.Report, t source.Text, path, name string) (exact.Rat, bool) {
	if name == "" {
		report.Wrong(t, path, "must name a marker", `such as "marker splash"`)
		return exact.Rat{}, false
	}
	if m.lacks(report, t, path, "a list of markers", `markers = "song.csv"`, m.List != "") {
		return exact.Rat{}, false
	}
	found := -1
	for i, k := range m.Markers {
		switch {
		case k.Name != name:
		case found >= 0:
			report.Wrong(t, path, fmt.Sprintf("is in %s more than once, first in lines %d and %d", m.List, m.Markers[found].line, k.line), "give one of them another name")
			return exact.Rat{}, false
		default:
			found = i
		}
	}
	if found < 0 {
		m.unknown(report, t, path, name)
		return exact.Rat{}, false
	}
	return m.Markers[found].At, true
}

func (m Music) unknown(report *source.Report, t source.Text, path, name string) {
	if m.faulty || m.Playback.Sign() == 0 { // its list has not been read
		return
	}
	fit := m.known()
	if near := source.Nearest(name, m.names()); near != "" {
		fit = fmt.Sprintf("did you mean %q?", markerWord+" "+near)
	}
	report.Wrong(t, path, "is not in "+m.List, fit)
}

// Length reads "16 beats" or "4 bars". It tells whether the text is one at all, and
// whether it could be read.
func (m Music) Length(report *source.Report, t source.Text, path string) (l Length, counts, ok bool) {
	fields := strings.Fields(t.Text)
	if len(fields) != 2 {
		return l, false, false
	}
	one := strings.TrimSuffix(fields[1], "s")
	if one != beatWord && one != barWord || Named(t.Text) {
		return l, false, false
	}
	n, err := exact.Parse(fields[0])
	if err != nil || n.Sign() <= 0 || mostCounted.Less(n) {
		report.Wrong(t, path, "must be a number of beats or bars above 0", `such as "16 beats"`)
		return l, true, false
	}
	if m.lacks(report, t, path, "a tempo", `tempo = "128 per minute"`, m.Tempo.Sign() > 0) {
		return l, true, false
	}
	if one == barWord {
		if m.lacks(report, t, path, "the beats of a bar", "bar = 4", m.Bar > 0) {
			return l, true, false
		}
		n = n.Mul(exact.Int(m.Bar))
	}
	return Length{strings.Join(fields, " "), n, n.Mul(minute).Quo(m.Tempo)}, true, true
}
