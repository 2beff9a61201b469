package music

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
)

// timeline reads the markers of a timeline in OpenTimelineIO JSON (Academy Software
// Foundation, "OTIO serialized schema"): those of its tracks, counted from the beginning
// of the timeline, and those of clips, which are counted in the time of their media.
func (r *listReader) timeline() {
	top, err := parse(r.data)
	var wrong *jsonFault
	switch {
	case errors.As(err, &wrong):
		r.wrong(wrong.offset, "JSON:", "", wrong.why, "")
		return
	case top.schema() == "Timeline":
		top = top.field("tracks")
	}
	if s := top.schema(); s != "Stack" && s != "Track" && s != "Clip" {
		r.wrong(top.offset, "OTIO_SCHEMA", quoted(s), "must be a timeline, a stack, a track or a clip", "a collection of several holds more than one time")
		return
	}
	w := walker{r, map[string]bool{}}
	w.item(top, exact.Rat{})
	if r.unnamed > 0 {
		r.told = append(r.told, fmt.Sprintf("%d of its markers have no name and were left out", r.unnamed))
	}
	var others []string
	for _, rate := range r.rates {
		if !rate.Equal(r.playback) {
			others = append(others, clock.RateText(rate))
		}
	}
	if len(others) > 0 {
		r.told = append(r.told, fmt.Sprintf("times counted at %s frames/s were converted exactly to the timeline's %s", strings.Join(others, ", "), clock.RateText(r.playback)))
	}
}

// walker goes through the items of a timeline.
type walker struct {
	*listReader
	seen map[string]bool // rates that were met
}

// item adds the markers of an item that begins at start, in s of the timeline, and of
// all that is in it. It returns how long it lasts, where that can be told.
func (w walker) item(v *value, start exact.Rat) (length exact.Rat, known bool) {
	from, length, known := w.span(v.field("source_range"))
	if v.schema() == "Clip" && !known {
		from, length, known = w.span(v.media().field("available_range"))
	}
	zero := start.Sub(from)
	w.marked(v, zero)
	inside, told := w.children(v, zero)
	if !known && v.schema() != "Clip" {
		return inside, told
	}
	return length, known
}

// children goes through what is in a stack or a track, whose own time 0 is at zero.
func (w walker) children(v *value, zero exact.Rat) (length exact.Rat, known bool) {
	known = true
	for _, c := range v.field("children").items {
		switch c.schema() {
		case "Transition":
			continue // it lies over its neighbours
		case "Stack", "Track", "Clip", "Gap":
		default:
			w.wrong(c.offset, "OTIO_SCHEMA", quoted(c.schema()), "is nothing that stands in a track", "")
			return length, false
		}
		at := zero
		if v.schema() == "Track" {
			if !known {
				w.wrong(c.offset, "item", "", "comes after one without a length, so that nobody can tell when it is seen", "")
				return length, false
			}
			at = zero.Add(length)
		}
		own, told := w.item(c, at)
		known = known && told
		if v.schema() == "Track" {
			length = length.Add(own)
		} else if length.Less(own) {
			length = own
		}
	}
	return length, known
}

// marked adds the markers of an item whose own time 0 is at zero.
func (w walker) marked(v *value, zero exact.Rat) {
	list := v.field("markers").items
	if len(list) > 0 && v.retimed() {
		w.wrong(list[0].offset, "marker", "", "stands on a clip whose speed is changed", "put it on the timeline")
		return
	}
	for _, k := range list {
		if w.full {
			return
		}
		if s := k.schema(); s != "Marker" {
			w.wrong(k.offset, "OTIO_SCHEMA", quoted(s), "must be a marker here", "")
			continue
		}
		name := named(k.field("name").text)
		if name == "" {
			w.unnamed++
			continue
		}
		at, _, ok := w.span(k.field("marked_range"))
		if !ok {
			if len(w.faults) == 0 {
				w.wrong(k.offset, "marker "+quoted(name), "", "has no marked_range", "")
			}
			continue
		}
		line, column := w.position(k.offset)
		w.add(line, column, name, at.Add(zero))
	}
}

// span reads a TimeRange, in seconds; one that is null is none.
func (w walker) span(v *value) (start, length exact.Rat, ok bool) {
	if v.kind != '{' {
		return start, length, false
	}
	start, ok = w.moment(v.field("start_time"))
	length, ok2 := w.moment(v.field("duration"))
	if ok && ok2 && length.Sign() < 0 {
		w.wrong(v.offset, "duration", "", "must be 0 or more", "")
		return start, length, false
	}
	return start, length, ok && ok2
}

// moment reads a RationalTime: so many frames of a rate, in seconds.
func (w walker) moment(v *value) (exact.Rat, bool) {
	rate, err := rateOf(v.field("rate").text)
	if err != nil {
		w.wrong(v.offset, "rate", "", err.Error(), "")
		return exact.Rat{}, false
	}
	frames, err := strconv.ParseFloat(v.field("value").text, 64)
	if err != nil || frames > maxFrames || frames < -maxFrames {
		w.wrong(v.offset, "value", quoted(v.field("value").text), fmt.Sprintf("must be a number of frames within %d", int64(maxFrames)), "")
		return exact.Rat{}, false
	}
	if frames != 0 && !w.seen[rate.String()] {
		w.seen[rate.String()] = true
		w.rates = append(w.rates, rate)
	}
	return exact.FromFloat(frames).Quo(rate), true
}

// maxFrames is a day at a thousand frames a second and more.
const maxFrames = 1e9

// ratePlaces is how far a rate that is written as a float is looked at: every slowed
// rate is told from its neighbours.
const ratePlaces = 6

// rateOf reads a rate that is written as a float: 23.976023976023978 is 24000/1001.
func rateOf(text string) (exact.Rat, error) {
	f, err := strconv.ParseFloat(text, 64)
	if err != nil || len(text) > longestName {
		return exact.Rat{}, fmt.Errorf("must be a number of frames a second")
	}
	short := strings.TrimRight(strconv.FormatFloat(f, 'f', ratePlaces, 64), "0")
	return clock.ParseRate(strings.TrimSuffix(short, "."))
}

// value is one of JSON, and where it begins.
type value struct {
	kind   byte // '{', '[', or 'v' for a string or a number; 0 for null, true and false, and what is not there
	text   string
	offset int
	fields map[string]*value
	items  []*value
}

var nothing = &value{}

func (v *value) field(name string) *value {
	if f, ok := v.fields[name]; ok {
		return f
	}
	return nothing
}

// schema is the name of what an object is, without its version.
func (v *value) schema() string {
	name, _, _ := strings.Cut(v.field("OTIO_SCHEMA").text, ".")
	return name
}

// media is the reference of a clip to its media: of several, that in use.
func (v *value) media() *value {
	if one := v.field("media_reference"); one.kind != 0 {
		return one
	}
	return v.field("media_references").field(v.field("active_media_reference_key").text)
}

// retimed tells whether an effect changes the speed of an item.
func (v *value) retimed() bool {
	for _, e := range v.field("effects").items {
		switch e.schema() {
		case "LinearTimeWarp", "FreezeFrame", "TimeEffect":
			return true
		}
	}
	return false
}

// jsonFault is what is wrong with JSON, and where.
type jsonFault struct {
	offset int
	why    string
}

func (f *jsonFault) Error() string { return f.why }

// parse reads one JSON document.
func parse(data []byte) (*value, error) {
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	v, err := next(d, 0)
	if err == nil {
		if _, err = d.Token(); err == nil {
			err = errors.New("something follows the document")
		} else if errors.Is(err, io.EOF) {
			err = nil
		}
	}
	if err != nil {
		at := int(d.InputOffset())
		var syntax *json.SyntaxError
		if errors.As(err, &syntax) {
			at = int(syntax.Offset)
		}
		why := err.Error()
		if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
			why = "ends before it is complete"
		}
		return nothing, &jsonFault{at, why}
	}
	return v, nil
}

// deepest is deeper than any timeline.
const deepest = 100

func next(d *json.Decoder, depth int) (*value, error) {
	if depth > deepest {
		return nothing, fmt.Errorf("is nested more than %d deep", deepest)
	}
	token, err := d.Token()
	if err != nil {
		return nothing, err
	}
	v := &value{offset: int(d.InputOffset()) - 1}
	switch t := token.(type) {
	case json.Delim:
		v.kind = byte(t)
	case string:
		v.kind, v.text = 'v', t
		return v, nil
	case json.Number:
		v.kind, v.text = 'v', t.String()
		return v, nil
	default:
		return v, nil
	}
	for d.More() {
		var key string
		if v.kind == '{' {
			token, err := d.Token()
			if err != nil {
				return v, err
			}
			key, _ = token.(string)
		}
		one, err := next(d, depth+1)
		if err != nil {
			return v, err
		}
		if v.kind == '[' {
			v.items = append(v.items, one)
			continue
		}
		if v.fields == nil {
			v.fields = map[string]*value{}
		}
		v.fields[key] = one
	}
	_, err = d.Token()
	return v, err
}
