package drive

import (
	"time"

	"seamrail/motion/controller/program"
)

// lineController is a controller that reads words, line by line.
type lineController struct {
	*engine
	lines   lines
	flight  []sent // lines without an answer, oldest first
	bytes   int    // of them, with their line ends
	said    int64  // bytes of lines answered so far
	ledger  ledger
	count   int // lines sent so far
	garbled int // noise that has added up

	status   status
	statusAt time.Time     // when it came; zero = none yet
	askedAt  time.Time     // when the last was asked for
	asks     []asking      // those that have not come
	strays   time.Time     // until when some may come that were asked for before all was forgotten
	before   time.Time     // when the one that came had been asked for
	shift    []float64     // of what it reports from where the axes stand; nil = unknown
	every    time.Duration // between askings; 0 = none
	unheard  time.Time     // the first asking since a sensible reply came

	greeted  bool         // since it was last set to false
	oks      int          // answers so far
	expected bool         // a greeting is no surprise now
	adrift   bool         // it has been reset in this run, and may have more to say of that
	stranger string       // the first thing said while a greeting was awaited
	alarmed  string       // the alarm it has told, while not cleared
	cleared  time.Time    // when homing began last, which clears an alarm
	ear      func(string) // hears what is neither answer nor report

	read     settings      // what it has printed of itself
	travels  []float64     // travel that soft limits hold each axis of the plan to, 0 = not known; nil = they are off
	doubts   []string      // what has been said that cannot be told of them
	inches   bool          // it reports inches
	tried    bool          // its dwells last as the rig file has it
	stood    time.Duration // from when the last line with nothing else on the way was there to its answer; 0 = not known
	homesNot bool          // it has said that it does not home

	lamp       lamp // that is on
	keepsLines bool // it has been seen to keep lines that come while it is at another

	setOut  span      // when the last gentle move began
	bound   []float64 // where a gentle move ends that has been sent
	stream  stream    // of the pass in hand
	counter counter
}

// sent is a line on its way: to the controller, or in its receive buffer.
type sent struct {
	number int
	text   string
	bytes  int
	at     time.Time
	by     time.Time     // when an answer should be there
	line   *program.Line // of the take, or nil
	ends   int64         // its last byte, of all that lines have had
	across time.Time     // when that is there; zero = the wire has not taken it yet
	jog    bool          // of a jog of the board's own: one that it does not take ends that
	quiet  bool          // it is answered at once, and nothing else is on the way
	after  int           // lines heard before it was sent
	room   float64       // sec of the take from which on there is room for its block
	roomy  bool          // that is known
}

// asking is a report that is asked for.
type asking struct {
	at    time.Time
	lined int64 // bytes of lines that are before it on the wire
	quiet bool  // nothing else was on the way
	after int   // lines heard before
}

func newLineController(e *engine) *lineController { return &lineController{engine: e} }

// room tells whether a line of so many bytes, line end included, may be sent.
func (t *lineController) room(bytes int) bool {
	if t.controller.Kind.OneByOne() {
		return len(t.flight) == 0
	}
	return t.bytes+bytes < t.controller.ReceiveBuffer || len(t.flight) == 0
}

// put sends one line, whose answer should come within limit.
func (t *lineController) put(text string, limit time.Duration, line *program.Line) {
	t.count++
	t.out.send([]byte(text + "\n"))
	t.flight = append(t.flight, sent{
		number: t.count, text: text, bytes: len(text) + 1, at: t.now, by: t.now.Add(limit), line: line,
		ends: t.out.queued, after: t.way.count,
	})
	t.bytes += len(text) + 1
}

// exchange sends one line and waits until nothing is without an answer. A stop
// ends it early with errStopped.
func (t *lineController) exchange(text string, limit time.Duration) error {
	t.put(text, limit, nil)
	return t.await(text)
}

// await waits until nothing is without an answer. A stop ends it early with
// errStopped.
func (t *lineController) await(text string) error { return t.awaitBut(0) }

// awaitBut is await for all but so many.
func (t *lineController) awaitBut(left int) error {
	for len(t.flight) > left {
		s := t.flight[0]
		if err := t.wait(s.by); err != nil {
			return err
		}
		if t.calming && !t.now.Before(s.by) {
			return failed(Silent, "no answer to %q", s.text)
		}
		if t.stops > 0 {
			return errStopped
		}
	}
	return nil
}

// prompt sends one line that is answered at once. How long that takes tells how
// long the controller needs for a line, where nothing else is on the way: what
// still comes is waited for.
func (t *lineController) prompt(text string) error {
	if err := t.quieten(); err != nil {
		return err
	}
	quiet := t.silentWay()
	t.put(text, t.promptly(len(text)+1), nil)
	if n := len(t.flight); n == 1 {
		t.flight[0].quiet = quiet
	}
	return t.await(text)
}

// quieten waits for what has been asked for, and asks for nothing more meanwhile.
func (t *lineController) quieten() error {
	every := t.every
	t.every = 0
	defer func() { t.every, t.askedAt = every, t.now }()
	for end := t.now.Add(patience); !t.silentWay() && t.now.Before(end); {
		until := end
		if len(t.flight)+len(t.asks) == 0 { // nothing is to come: a wire that is quicker than is known has brought it
			until = earlier(end, t.way.across)
		}
		if err := t.wait(until); err != nil {
			return err
		}
	}
	return nil
}

// silentWay tells whether nothing is on the way to the controller or back.
func (t *lineController) silentWay() bool {
	return len(t.flight) == 0 && len(t.asks) == 0 && !t.out.waiting() && !t.now.Before(t.way.across)
}

// flushed notes when the lines are across that the wire has taken.
func (t *lineController) flushed() {
	for i := range t.flight {
		s := &t.flight[i]
		if s.across.IsZero() && s.ends <= t.out.lined {
			s.across = t.way.across.Add(-t.way.bytes(int(t.out.lined - s.ends)))
		}
	}
}
