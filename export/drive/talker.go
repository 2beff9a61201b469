package drive

import (
	"strings"
	"time"

	"seamrail/motion/rig"
)

// talker is a controller that reads words, line by line.
type talker struct {
	*engine
	lines   lines
	flight  []sent // lines without an answer, oldest first
	bytes   int    // of them, with their line ends
	count   int    // lines sent so far
	garbled int    // noise that has added up

	status   status
	statusAt time.Time     // when it came; zero = none yet
	askedAt  time.Time     // when the last was asked for
	asks     []time.Time   // when those were that have not come
	before   time.Time     // when the one that came had been asked for
	shift    []float64     // of what it reports from where the axes stand; nil = unknown
	every    time.Duration // between askings; 0 = none
	unheard  time.Time     // the first asking since a sensible reply came

	greeted  bool         // since it was last set to false
	oks      int          // answers so far
	expected bool         // a greeting is no surprise now
	stranger string       // the first thing said while a greeting was awaited
	alarmed  string       // the alarm it has told, while not cleared
	ear      func(string) // hears what is neither answer nor report

	bound  []float64 // where a gentle move ends that has been sent
	stream stream    // of the pass in hand
}

// sent is a line on its way: to the controller, or in its receive buffer.
type sent struct {
	number int
	text   string
	bytes  int
	at     time.Time
	by     time.Time // when an answer should be there
	line   *Line     // of the take, or nil
}

// pollEvery is how often a report is asked for while something moves: often
// enough to see a carriage at 400 mm/s every 40 mm, and under one byte in a
// thousand on the wire.
const pollEvery = 100 * time.Millisecond

// Noise adds up, and sensible replies make up for it: four lines of noise with
// hardly a sensible one between them are the wrong speed, or no controller. A
// click on a long cable now and then is not; whether it has cost an answer is
// noticed in another way.
const (
	noiseWeight = 8
	mostNoise   = 4 * noiseWeight
)

func newTalker(e *engine) *talker { return &talker{engine: e} }

// room tells whether a line of so many bytes, line end included, may be sent.
func (t *talker) room(bytes int) bool {
	if t.controller.Kind == rig.Lockstep {
		return len(t.flight) == 0
	}
	return t.bytes+bytes < t.controller.ReceiveBuffer || len(t.flight) == 0
}

// put sends one line, whose answer should come within limit.
func (t *talker) put(text string, limit time.Duration, line *Line) {
	t.count++
	t.out.send([]byte(text + "\n"))
	t.flight = append(t.flight, sent{
		number: t.count, text: text, bytes: len(text) + 1, at: t.now, by: t.now.Add(limit), line: line,
	})
	t.bytes += len(text) + 1
}

// exchange sends one line and waits until nothing is without an answer. A stop
// ends it early with errStopped.
func (t *talker) exchange(text string, limit time.Duration) error {
	t.put(text, limit, nil)
	for len(t.flight) > 0 {
		by := t.flight[0].by
		if err := t.wait(by); err != nil {
			return err
		}
		if t.calming && !t.now.Before(by) {
			return failed(Silent, "no answer to %q", text)
		}
		if t.stops > 0 {
			return errStopped
		}
	}
	return nil
}

func (t *talker) heard(b []byte) { t.lines.add(b, t.reply) }

// reply deals with one line from the controller.
func (t *talker) reply(line []byte) {
	r := parse(line, t.controller.Greeting)
	if r.kind == garbage {
		t.noise(r.text)
		return
	}
	if r.kind != blank {
		t.garbled = max(t.garbled-1, 0)
		t.unheard = time.Time{}
	}
	switch r.kind {
	case answer:
		t.answered()
	case refusal:
		t.refused(r.text)
	case alarm:
		t.alarmed = r.text
		if !t.expected {
			t.fail(Alarmed, "%s; it stopped by itself, and position is not to be trusted", r.text)
		}
	case report:
		t.reported(r.status)
	case greeting:
		t.greets(r.text)
	case talk:
		t.talks(r.text)
	}
}

func (t *talker) noise(text string) {
	t.garbled += noiseWeight
	if t.garbled >= mostNoise {
		t.fail(Garbled, "lines that cannot be read, the last %q; is the speed of the wire right?", shortened(text))
	}
}

// shownText is how much of a strange line is shown.
const shownText = 40

func shortened(text string) string {
	if len(text) > shownText {
		return text[:shownText]
	}
	return text
}

func (t *talker) answered() {
	t.oks++
	if len(t.flight) == 0 {
		if !t.expected {
			t.fail(Unmatched, "an answer more than lines were sent (%d)", t.count)
		}
		return
	}
	s := t.pop()
	if s.line != nil {
		t.stream.answered(t, s)
	}
}

func (t *talker) pop() sent {
	s := t.flight[0]
	t.flight = t.flight[:copy(t.flight, t.flight[1:])]
	t.bytes -= s.bytes
	return s
}

func (t *talker) refused(text string) {
	if len(t.flight) == 0 {
		t.fail(Refused, "%s, with no line sent", text)
		return
	}
	s := t.pop()
	t.fail(Refused, "%s on line %d, %q", text, s.number, s.text)
}

func (t *talker) reported(s status) {
	t.status, t.statusAt, t.before = s, t.now, t.now
	if len(t.asks) > 0 {
		t.before = t.asks[0]
		t.asks = t.asks[:copy(t.asks, t.asks[1:])]
	}
	if t.moving && t.engine.pass != nil {
		t.stream.reported(t)
	}
	if !s.is("Alarm") {
		t.alarmed = ""
		return
	}
	if t.alarmed == "" {
		t.alarmed = "it reports an alarm"
	}
	if t.moving {
		t.fail(Alarmed, "it reports an alarm; position is not to be trusted")
	}
}

func (t *talker) greets(text string) {
	t.greeted = true
	if !t.expected {
		t.fail(Restarted, "it greeted anew (%s): it was reset or lost power, and what it held is gone", shortened(text))
	}
}

func (t *talker) talks(text string) {
	if t.stranger == "" && !strings.HasPrefix(text, "[") {
		t.stranger = text
	}
	if t.ear != nil {
		t.ear(text)
	}
}

// tick asks for reports and notices answers that are late.
func (t *talker) tick() {
	if t.every > 0 && t.controller.Status != 0 && !t.now.Before(t.askedAt.Add(t.every)) {
		t.askStatus()
	}
	if len(t.flight) > 0 && !t.now.Before(t.answerBy()) {
		t.late(t.flight[0])
	}
	if !t.unheard.IsZero() && t.now.Sub(t.unheard) > patience {
		t.fail(Silent, "it has not answered for %v", t.now.Sub(t.unheard).Round(time.Millisecond))
	}
}

func (t *talker) askStatus() {
	t.out.hurry(t.controller.Status)
	t.askedAt = t.now
	if len(t.asks) > 0 && t.now.Sub(t.asks[0]) > patience {
		t.asks = t.asks[:0] // the oldest was lost
	}
	t.asks = append(t.asks, t.now)
	if t.unheard.IsZero() {
		t.unheard = t.now
	}
}

// answerBy is when the oldest line should have been answered.
func (t *talker) answerBy() time.Time {
	s := t.flight[0]
	if s.line != nil {
		return t.stream.answerBy(t, s)
	}
	return s.by
}

// late says what is known of an answer that did not come.
func (t *talker) late(s sent) {
	if t.controller.Status != 0 && t.statusAt.After(s.at) && t.now.Sub(t.statusAt) < patience {
		t.fail(Unmatched, "no answer to line %d, %q, though it still reports: an answer was lost", s.number, s.text)
		return
	}
	t.fail(Silent, "no answer to line %d, %q, for %v", s.number, s.text, t.now.Sub(s.at).Round(time.Millisecond))
}

func (t *talker) due() time.Time {
	due := t.now.Add(never)
	if t.every > 0 && t.controller.Status != 0 {
		due = t.askedAt.Add(t.every)
	}
	if len(t.flight) > 0 && t.failure == nil {
		due = earlier(due, t.answerBy())
	}
	return due
}

// reading returns what the last report says of each axis of the plan, in the
// controller's own count.
func (t *talker) reading() ([]float64, bool) {
	from := t.status.work
	if from == nil {
		from = t.status.machine
	}
	cols := columns(t.rigAxes(), len(from))
	if cols == nil {
		return nil, false
	}
	out := make([]float64, len(t.axes))
	for i := range t.axes {
		out[i] = from[cols[i]]
	}
	return out, true
}

// position returns where the axes of the plan stand by the last report.
func (t *talker) position() ([]float64, bool) {
	out, ok := t.reading()
	if !ok || t.shift == nil {
		return nil, false
	}
	for i := range out {
		out[i] -= t.shift[i]
	}
	return out, true
}

// rigAxes are the axes of the plan, then those of the rig that it leaves alone.
func (t *talker) rigAxes() []rig.Axis {
	all := append([]rig.Axis(nil), t.axes...)
	for _, a := range t.Trajectory.Rig().Axes {
		if !has(t.axes, a.Name) {
			all = append(all, a)
		}
	}
	return all
}

func has(axes []rig.Axis, name string) bool {
	for _, a := range axes {
		if a.Name == name {
			return true
		}
	}
	return false
}
