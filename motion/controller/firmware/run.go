package firmware

// Program hands out the lines of a program, as they are sent.
type Program func() (line string, ok bool)

// Watch is told what the board does, in the order of time.
type Watch struct {
	// Slice is a slice that runs from start on. It is used again for the next.
	Slice func(s *Slice, start Instant)
	// Began is when a line, the first being 1, begins to move. A line that makes
	// no step never does.
	Began func(line int64, at Instant)
	// Stands is from when to when a line dwells.
	Stands func(line int64, from, until Instant)
}

// Play plays a program from rest at the given counts, and returns when all of
// it has been run. It returns an error if a line is none that it can foretell.
func (b *Board) Play(next Program, letters string, at Counts, link Link, w Watch) (Instant, error) {
	p := &play{
		board: b, reader: b.Reader(letters, at), next: next, wire: newWire(link), watch: w,
		plan: b.Planner(), slicer: b.Slicer(), count: at, queue: make([]Slice, b.slices()), wake: Never,
	}
	p.fetch()
	for p.err == nil && p.turn() {
	}
	return p.now, p.err
}

// waiting is a line that has been sent.
type waiting struct {
	order  Order
	number int64
}

// play is a program being run.
type play struct {
	board  *Board
	reader *Reader
	next   Program
	wire   *wire
	watch  Watch

	now    Instant
	lines  []waiting // sent and not taken, the oldest first
	ahead  waiting   // the next that the host will send
	any    bool      // there is one
	number int64
	err    error

	plan    Planner
	slicer  Slicer
	count   Counts // steps of the last block planned
	queue   []Slice
	first   int // the slice that runs
	cut     int // slices cut and not run out
	runs    bool
	running Slice
	start   Instant // of the slice that runs
	freed   bool    // it has made its last step event
	counter Counter
	wake    Instant // when the first interrupt of a motion comes, or Never
	began   int64   // the line that moved last

	cycle   bool    // motion goes on
	busy    Instant // until when the main loop does something else
	dwells  bool    // the line in hand dwells: first all motion has to end
	pausing bool    // then it pauses, until busy
}

// fetch asks for the next line, and sends what the host may send.
func (p *play) fetch() {
	for {
		if !p.any {
			line, ok := p.next()
			if !ok {
				return
			}
			var o Order
			if o, p.err = p.reader.Read(line); p.err != nil {
				return
			}
			p.number++
			p.ahead, p.any = waiting{o, p.number}, true
		}
		if !p.wire.fits(p.ahead.order.Chars) {
			return
		}
		p.wire.send(p.ahead.order.Chars)
		p.lines = append(p.lines, p.ahead)
		p.any = false
	}
}

// turn lets the board do all that it can do now, and moves on to what happens
// next. It tells whether anything does.
func (p *play) turn() bool {
	p.work()
	at := p.due()
	if at == Never {
		return false
	}
	p.now = max(p.now, at)
	p.step()
	return true
}

// work turns the main loop until it waits.
func (p *play) work() {
	for p.now >= p.busy && p.err == nil {
		if p.cycle {
			p.prepare()
		}
		switch {
		case p.pausing:
			p.pausing, p.dwells = false, false
			p.taken()
		case p.dwells:
			if p.cycle {
				return
			}
			if !p.plan.Empty() {
				p.begin()
				continue
			}
			p.pause()
		case len(p.lines) > 0 && p.arrived() <= p.now && !p.plan.Full():
			p.take()
		case !p.cycle && !p.plan.Empty():
			p.begin()
		default:
			return
		}
	}
}

// arrived is when the oldest line that waits is on the board.
func (p *play) arrived() Instant { return p.wire.sent[p.wire.first].there }

// take works out the oldest line.
func (p *play) take() {
	o := &p.lines[0].order
	if o.Dwells {
		p.dwells = true
		return
	}
	p.busy = p.now + p.board.lineTime(o.Moves)
	if o.Moves {
		if k, ok := p.board.Block(&p.count, &o.To, o.Pace); ok {
			k.Line = p.lines[0].number
			p.plan.Add(&k)
			p.count = o.To
		}
	}
	p.taken()
}

// taken answers the oldest line.
func (p *play) taken() {
	p.lines = append(p.lines[:0], p.lines[1:]...)
	p.wire.answer(p.now)
	p.fetch()
}

// pause begins the dwell in hand.
func (p *play) pause() {
	w := &p.lines[0]
	p.pausing = true
	p.busy = p.now + p.board.Dwell(w.order.Dwell)
	if p.watch.Stands != nil {
		p.watch.Stands(w.number, p.now, p.busy)
	}
}

// begin starts the motion that has been planned.
func (p *play) begin() {
	p.cycle = true
	p.prepare() // each block that is planned has a step, so that there is a slice
	s := &p.queue[p.first]
	at, lead := p.board.Timer.Wake(p.counter, p.now, s.Beat.Every)
	s.Lead = lead
	p.wake = at
}

// prepare cuts slices ahead.
func (p *play) prepare() {
	for !p.plan.Empty() && p.cut < len(p.queue) {
		s := &p.queue[(p.first+p.cut)%len(p.queue)]
		p.slicer.Next(&p.plan, s)
		if s.Pulses > 0 {
			p.cut++
		}
	}
}

// load starts the first slice of the queue; if there is none, motion has ended,
// and the main loop waits until the motors may lose their current.
func (p *play) load() {
	p.runs = p.cut > 0
	if !p.runs {
		p.counter.Rest(p.now, p.running.Beat.Every)
		p.cycle = false
		p.busy = p.board.looks(p.now + p.board.IdleDelay)
		return
	}
	p.running, p.start, p.freed = p.queue[p.first], p.now, false
	s := &p.running
	if s.Line != p.began {
		p.began = s.Line
		if p.watch.Began != nil {
			p.watch.Began(s.Line, p.now)
		}
	}
	if p.watch.Slice != nil {
		p.watch.Slice(s, p.now)
	}
}

// due is when something happens next.
func (p *play) due() Instant {
	at := Never
	if p.wake != Never {
		at = p.wake
	}
	if p.runs {
		at = p.start + p.running.Lasts()
		if !p.freed {
			at -= p.running.Beat.Every
		}
	}
	if p.busy > p.now {
		at = min(at, p.busy)
	} else if !p.dwells && len(p.lines) > 0 && !p.plan.Full() {
		at = min(at, p.arrived())
	}
	return at
}

// step lets the slice that runs make its last step event, which gives its place
// to another, or come to its end, which is an interval later.
func (p *play) step() {
	switch s := &p.running; {
	case p.wake <= p.now:
		p.wake = Never
		p.load()
	case !p.runs:
	case !p.freed && p.start+s.Lasts()-s.Beat.Every <= p.now:
		p.freed = true
		p.cut--
		p.first = (p.first + 1) % len(p.queue)
	case p.freed && p.start+s.Lasts() <= p.now:
		p.load()
	}
}
