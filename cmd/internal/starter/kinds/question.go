package kinds

import (
	"errors"
	"fmt"
	"strings"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
)

// Question is one of the numbers that a kind asks.
type Question struct {
	Name    string // also of the flag that answers it
	Ask     string // what it means
	Default string
	Least   string
	Most    string
	Whole   bool // a count

	unit string // taken where a number has none; "" for a number without
	read func(text string) (exact.Rat, error)
	keys []string // of the shot file that take the answer as it is
}

// Range says what would fit.
func (q Question) Range() string { return fmt.Sprintf("from %s to %s", q.Least, q.Most) }

// Bounds is the range as numbers, in mm, seconds, frames a second or none.
func (q Question) Bounds() (least, most float64) {
	low, _ := q.read(q.Least)
	high, _ := q.read(q.Most)
	return low.Float(), high.Float()
}

// answer reads an answer and returns it as it goes into a file, and as a number in the
// unit of the question.
func (q Question) answer(text string) (string, exact.Rat, error) {
	text = strings.TrimSpace(text)
	if _, err := exact.Parse(text); err == nil && q.unit != "" {
		text += " " + q.unit
	}
	n, err := q.read(text)
	if err != nil {
		return "", n, fmt.Errorf("%w; %s would do, %s", err, q.Default, q.Range())
	}
	least, _ := q.read(q.Least)
	most, _ := q.read(q.Most)
	if n.Less(least) || most.Less(n) {
		return "", n, fmt.Errorf("%q must be %s", text, q.Range())
	}
	return text, n, nil
}

// with returns the question with another default and another range.
func (q Question) with(standard, least, most string) Question {
	q.Default, q.Least, q.Most = standard, least, most
	return q
}

// playback is the timeline of every kind, in frames a second: that of the pieces, and
// that of time-lapse.
var (
	playback = exact.New(24000, 1001)
	lapsed   = exact.Int(24)
)

// capture asks for the camera's rate. It ends where the shutter of the pieces, 1/250 s,
// would be longer than a frame.
func capture() Question {
	return Question{
		Name: "capture", Ask: "frames a second that the camera takes; more than 23.976 are seen slower than life",
		Default: "119.88", Least: "23.976", Most: "240", read: clock.ParseRate, keys: []string{"clock.capture"},
	}
}

// loopName is the question for the length of the loop.
const loopName = "loop"

// loop asks for the length of the loop, in seconds or frames of a timeline.
func loop(timeline exact.Rat) Question {
	return Question{
		Name: loopName, Ask: "length of the loop on screen, in seconds or frames",
		Default: "6 s", Least: "2 s", Most: "60 s", unit: "s", keys: []string{"clock.loop"},
		read: func(text string) (exact.Rat, error) {
			q, err := unit.ParseAs(text, unit.Time, unit.Frames)
			switch {
			case err != nil:
				return exact.Rat{}, err
			case q.Dim != unit.Frames:
				return q.Value, nil
			case !q.Value.IsInt():
				return exact.Rat{}, fmt.Errorf("%q must be a whole number of frames", text)
			}
			return q.Value.Quo(timeline), nil
		},
	}
}

// length asks for a number of millimetres.
func length(name, ask, standard, least, most string, keys ...string) Question {
	return Question{Name: name, Ask: ask, Default: standard, Least: least, Most: most, unit: "mm", keys: keys, read: as(unit.Length)}
}

// duration asks for seconds.
func duration(name, ask, standard, least, most string, keys ...string) Question {
	return Question{Name: name, Ask: ask, Default: standard, Least: least, Most: most, unit: "s", keys: keys, read: as(unit.Time)}
}

func as(dim unit.Dimension) func(string) (exact.Rat, error) {
	return func(text string) (exact.Rat, error) {
		q, err := unit.ParseAs(text, dim)
		return q.Value, err
	}
}

// whole asks for a count.
func whole(name, ask, standard, least, most string, keys ...string) Question {
	return Question{Name: name, Ask: ask, Default: standard, Least: least, Most: most, Whole: true, keys: keys,
		read: func(text string) (exact.Rat, error) {
			n, err := exact.Parse(text)
			if err == nil && !n.IsInt() {
				err = fmt.Errorf("%q must be a whole number", text)
			}
			return n, err
		}}
}

// faces asks how many sides of the product look alike.
func faces() Question {
	return whole("faces", "how many sides of the product look alike; 1 where none do", "6", "1", "24")
}

// magnification asks for image over object, as lenses are marked.
func magnification(standard, least, most string) Question {
	return Question{
		Name: "magnification", Ask: "image over object, as macro lenses are marked", Default: standard, Least: least, Most: most,
		keys: []string{"camera.magnification"},
		read: func(text string) (exact.Rat, error) {
			n, err := exact.Parse(strings.Replace(text, ":", "/", 1))
			if err == nil && n.Sign() <= 0 {
				err = errors.New("a magnification is above 0")
			}
			return n, err
		},
	}
}

// from and to ask for the two ends of the carriage's way, which are within its travel.
func (b Bench) from(place, ask string) Question { return b.end("from", place, ask) }
func (b Bench) to(place, ask string) Question   { return b.end("to", place, ask) }

func (b Bench) end(name, place, ask string) Question {
	return length(name, ask, place, mm(b.Rail.Min), mm(b.Rail.Max), "axis."+b.Rail.Name+"."+name)
}

// ends are from and to of a way that the pieces have, moved to where this rail is.
func (b Bench) ends(from, to float64, fromAsk, toAsk string) []Question {
	low, high := min(from, to), max(from, to)
	if low < b.Rail.Min || high > b.Rail.Max {
		room := (b.Rail.Max - b.Rail.Min) * usedTravel
		middle, half := (b.Rail.Min+b.Rail.Max)/2, min(high-low, room)/2
		low, high = tenths(middle-half), tenths(middle+half)
	}
	if to < from {
		low, high = high, low
	}
	return []Question{b.from(mm(low), fromAsk), b.to(mm(high), toAsk)}
}

// usedTravel is how much of a travel is used by a way that is longer than it: the rest is
// for run-ups, and for whoever measured it too long.
const usedTravel = 0.8
