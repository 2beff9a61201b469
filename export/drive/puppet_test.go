package drive_test

import (
	"container/heap"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"seamrail/export/drive"
)

// puppet is a controller and a wire for tests, on a clock of its own. It
// carries out each block in exactly the time it is told, without ramps: what
// motion looks like is not what these tests are about. The rig of software in
// drive/virtual is.
type puppet struct {
	now    time.Time
	events agenda
	order  int

	// What it is.
	baud      float64
	buffer    int // bytes; 0 = one line at a time
	planner   int // blocks
	greets    string
	boots     bool // greets when the port opens
	realtime  bool
	settings  []string
	failTo    map[string]string // answers to lines, in place of ok
	mute      bool
	still     bool          // it does not report
	garbles   bool          // what it says cannot be read
	full      bool          // takes no byte
	slept     time.Duration // to be told
	stall     time.Time     // until when the host does nothing
	delivered func(text string)
	takes     func(c byte) // the board, when it is another one
	deafAfter int          // bytes it takes before the wire is gone; 0 = never
	rate      float64      // how much longer blocks take than they are told; 0 = not
	aborted   func()       // after a reset that was asked for
	trickle   int          // most bytes a write takes; 0 = all

	// Tampering with the answers: by their number, from 1.
	tamper map[int]func(p *puppet)

	// The wire.
	toBoard, toHost time.Time // when each direction is free again
	heard           []byte    // what has arrived at the host and was not fetched
	asked           []drive.Request
	gone            error
	taken           int // bytes taken from the host
	log             strings.Builder
	hurried         map[byte][]time.Time // when real-time bytes were put on the wire

	// The board.
	partial  []byte   // of a line
	lines    []string // whole, not parsed
	lost     int      // bytes that found no room
	blocks   []puppetBlock
	started  time.Time // of the first block
	running  bool
	hold     bool
	left     time.Duration // of a block that is held
	round    int           // so that an outdated end of a block is known
	dwelling bool
	g93      bool
	rel      bool
	feed     float64
	pos      map[byte]float64 // work coordinates when all blocks are done
	offset   map[byte]float64
	alarm    bool
	answers  int
	moves    []time.Time // when each block began
	starved  int         // times it ran empty between two moves of a take
	idleAt   time.Time
	peak     int
	dwelt    bool // the line before was a dwell
}

type puppetBlock struct {
	takes time.Duration
	end   map[byte]float64
	from  map[byte]float64
}

type happening struct {
	at    time.Time
	order int
	do    func()
}

type agenda []happening

func (a agenda) Len() int { return len(a) }
func (a agenda) Less(i, j int) bool {
	return a[i].at.Before(a[j].at) || a[i].at.Equal(a[j].at) && a[i].order < a[j].order
}
func (a agenda) Swap(i, j int) { a[i], a[j] = a[j], a[i] }
func (a *agenda) Push(x any)   { *a = append(*a, x.(happening)) }
func (a *agenda) Pop() any {
	old := *a
	x := old[len(old)-1]
	*a = old[:len(old)-1]
	return x
}

var opened = time.Date(2026, 3, 14, 9, 0, 0, 0, time.UTC)

// newPuppet is a buffered controller that greets when the port opens.
func newPuppet() *puppet {
	p := &puppet{
		now: opened, baud: 115200, buffer: 128, planner: 16, greets: "Bench 1.0 ready", boots: true, realtime: true,
		tamper: map[int]func(*puppet){}, failTo: map[string]string{}, hurried: map[byte][]time.Time{},
		pos: map[byte]float64{'X': 0, 'A': 0}, offset: map[byte]float64{'X': 0, 'A': 0},
	}
	p.in(300*time.Millisecond, func() {
		if p.boots {
			p.says(p.greets)
		}
	})
	return p
}

func (p *puppet) in(d time.Duration, do func()) {
	p.order++
	heap.Push(&p.events, happening{p.now.Add(d), p.order, do})
}

func (p *puppet) byteTime() time.Duration { return time.Duration(10 / p.baud * float64(time.Second)) }

// Now, Write and Wait make it a drive.World.

func (p *puppet) Now() time.Time { return p.now }

func (p *puppet) Write(b []byte) (int, error) {
	if p.gone != nil {
		return 0, p.gone
	}
	if p.full {
		return 0, nil
	}
	if p.trickle > 0 && len(b) > p.trickle {
		b = b[:p.trickle]
	}
	for i, c := range b {
		if p.deafAfter > 0 && p.taken >= p.deafAfter {
			p.vanish()
			return i, p.gone
		}
		p.taken++
		p.log.WriteByte(c)
		if p.realtime && strings.IndexByte("?!~\x18", c) >= 0 {
			p.hurried[c] = append(p.hurried[c], p.now)
		}
		p.toBoard = maxTime(p.toBoard, p.now).Add(p.byteTime())
		p.in(p.toBoard.Sub(p.now), func() { p.receive(c) })
	}
	return len(b), nil
}

func (p *puppet) vanish() { p.gone = errors.New("input/output error") }

// longestRun is far more than any run here takes, an hour's sleep included.
const longestRun = 6 * time.Hour

// Wait panics where a run has waited so long for its operator that it is not
// going to end.
func (p *puppet) Wait(until time.Time) drive.Event {
	if p.now.Sub(opened) > longestRun {
		panic("a run that does not end: it waits for an operator whose script is over")
	}
	for {
		stalled := p.now.Before(p.stall)
		if stalled {
			until = p.stall
		}
		switch {
		case stalled && len(p.events) > 0 && !p.events[0].at.After(p.stall):
		case stalled:
			p.now = p.stall
			continue
		case p.gone != nil:
			p.now = p.now.Add(time.Microsecond)
			return drive.Event{Kind: drive.Gone, Err: p.gone}
		case p.slept > 0:
			d := p.slept
			p.slept = 0
			return drive.Event{Kind: drive.Slept, Duration: d}
		case len(p.asked) > 0:
			r := p.asked[0]
			p.asked = p.asked[1:]
			return drive.Event{Kind: drive.Asked, Request: r}
		case len(p.heard) > 0:
			b := p.heard
			p.heard = nil
			if p.delivered != nil {
				p.delivered(string(b))
			}
			return drive.Event{Kind: drive.Heard, Bytes: b}
		case len(p.events) == 0 || p.events[0].at.After(until):
			p.now = maxTime(p.now, until)
			return drive.Event{}
		}
		h := heap.Pop(&p.events).(happening)
		p.now = h.at
		h.do()
	}
}

func maxTime(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

// says puts a line on the wire to the host.
func (p *puppet) says(line string) {
	if p.garbles {
		line = strings.Repeat("\xfe", len(line))
	}
	p.raw([]byte(line + "\r\n"))
}

func (p *puppet) raw(b []byte) {
	if p.mute {
		return
	}
	p.toHost = maxTime(p.toHost, p.now).Add(time.Duration(len(b)) * p.byteTime())
	p.in(p.toHost.Sub(p.now), func() { p.heard = append(p.heard, b...) })
}

func (p *puppet) ok() {
	p.answers++
	if f := p.tamper[p.answers]; f != nil {
		f(p)
		return
	}
	p.says("ok")
}

func (p *puppet) receive(c byte) {
	if p.takes != nil {
		p.takes(c)
		return
	}
	if p.realtime && p.immediate(c) {
		return
	}
	if c == '\n' {
		p.lines = append(p.lines, string(p.partial))
		p.partial = nil
		p.parse()
		return
	}
	used := len(p.partial)
	for _, l := range p.lines {
		used += len(l) + 1
	}
	p.peak = max(p.peak, used)
	if p.buffer > 0 && used >= p.buffer {
		p.lost++
		return
	}
	p.partial = append(p.partial, c)
}

func (p *puppet) immediate(c byte) bool {
	switch c {
	case '?':
		if !p.still {
			p.says(p.status())
		}
	case '!':
		p.holds()
	case '~':
		p.resumes()
	case 0x18:
		p.reset()
		if p.aborted != nil {
			p.aborted()
		}
	default:
		return false
	}
	return true
}

func (p *puppet) state() string {
	switch {
	case p.alarm:
		return "Alarm"
	case p.hold:
		return "Hold:0"
	case p.running || p.dwelling:
		return "Run"
	}
	return "Idle"
}

func (p *puppet) status() string {
	return fmt.Sprintf("<%s|MPos:%.3f,0.000,0.000,%.3f|Bf:%d,%d|FS:0,0>", p.state(),
		p.where('X')+p.offset['X'], p.where('A')+p.offset['A'], p.planner-len(p.blocks), 64)
}

// where is an axis now, in work coordinates.
func (p *puppet) where(letter byte) float64 {
	if len(p.blocks) == 0 {
		return p.pos[letter]
	}
	b := p.blocks[0]
	share := 0.0
	switch {
	case p.hold:
		share = 1 - float64(p.left)/float64(b.takes)
	case p.running:
		share = float64(p.now.Sub(p.started)) / float64(b.takes)
	}
	return b.from[letter] + share*(b.end[letter]-b.from[letter])
}

func (p *puppet) holds() {
	if p.hold {
		return
	}
	p.hold = true
	if p.running {
		p.left = p.blocks[0].takes - p.now.Sub(p.started)
		p.running = false
	}
}

func (p *puppet) resumes() {
	if !p.hold {
		return
	}
	p.hold = false
	if len(p.blocks) > 0 {
		p.startBlock(p.left)
	}
}

// reset forgets all that is queued; a reset in motion ends in an alarm.
func (p *puppet) reset() {
	p.alarm = p.alarm || p.running
	for _, l := range []byte("XA") {
		p.pos[l] = p.where(l) + p.offset[l]
		p.offset[l] = 0
	}
	p.blocks, p.lines, p.partial = nil, nil, nil
	p.running, p.hold, p.dwelling, p.g93, p.rel = false, false, false, false, false
	p.round++
	if p.greets != "" {
		p.says(p.greets)
	}
}

// trips is a limit switch.
func (p *puppet) trips() {
	greets := p.greets
	p.says("ALARM:1")
	p.greets = ""
	p.reset()
	p.greets, p.alarm = greets, true
}

func (p *puppet) parse() {
	for len(p.lines) > 0 && !p.dwelling && len(p.blocks) < p.planner {
		line := p.lines[0]
		if strings.HasPrefix(line, "G4 P") && len(p.blocks) > 0 {
			return
		}
		p.lines = p.lines[1:]
		p.obey(line)
	}
}

func (p *puppet) obey(line string) {
	if say, ok := p.failTo[line]; ok {
		p.says(say)
		return
	}
	switch {
	case line == "$$":
		for _, s := range p.settings {
			p.says(s)
		}
	case line == "$H":
		p.alarm = false
		p.in(2*time.Second, p.ok)
		return
	case line == "$X":
		p.alarm = false
	case p.alarm && line != "":
		p.says("error:9")
		return
	case strings.HasPrefix(line, "G4 P"):
		s, _ := strconv.ParseFloat(line[4:], 64)
		p.dwelling = true
		round := p.round
		p.in(time.Duration(s*float64(time.Second)), func() {
			if round == p.round {
				p.dwelling, p.dwelt = false, true
				p.ok()
				p.parse()
			}
		})
		return
	default:
		if !p.words(line) {
			p.says("error:2")
			return
		}
	}
	p.ok()
}

func (p *puppet) words(line string) bool {
	target := map[byte]float64{}
	move, set, feed := false, false, p.feed
	for _, w := range strings.Fields(line) {
		x, err := strconv.ParseFloat(w[1:], 64)
		switch {
		case err != nil:
			return false
		case w == "G1":
			move = true
		case w == "G92":
			set = true
		case w == "G93", w == "G94":
			p.g93 = w == "G93"
		case w == "G90", w == "G91":
			p.rel = w == "G91"
		case w == "G21", w == "M2":
		case w[0] == 'F':
			feed = x
		case w[0] == 'X' || w[0] == 'A':
			target[w[0]] = x
		default:
			return false
		}
	}
	p.feed = feed
	if set {
		for l, x := range target {
			p.offset[l] += p.pos[l] - x
			p.pos[l] = x
		}
		return true
	}
	return !move || p.queue(target, feed)
}

func (p *puppet) queue(target map[byte]float64, feed float64) bool {
	if feed <= 0 {
		return false
	}
	b := puppetBlock{from: map[byte]float64{}, end: map[byte]float64{}}
	far := 0.0
	for l, at := range p.pos {
		b.from[l], b.end[l] = at, at
		if x, ok := target[l]; ok && p.rel {
			b.end[l] = at + x
		} else if ok {
			b.end[l] = x
		}
		far = max(far, b.end[l]-at, at-b.end[l])
	}
	if far == 0 {
		return true
	}
	minutes := 1 / feed
	if !p.g93 {
		minutes = far / feed
	}
	b.takes = time.Duration(minutes * 60 * max(p.rate, 1) * float64(time.Second))
	for l, x := range b.end {
		p.pos[l] = x
	}
	p.blocks = append(p.blocks, b)
	defer func() { p.dwelt = false }()
	if len(p.blocks) == 1 && !p.hold {
		if !p.idleAt.IsZero() && p.now.Sub(p.idleAt) > 0 && p.now.Sub(p.idleAt) < 100*time.Millisecond && p.g93 && !p.dwelt {
			p.starved++
		}
		p.startBlock(b.takes)
	} else if len(p.blocks) == 1 {
		p.left = b.takes
	}
	return true
}

// startBlock runs the first block for so long, the rest of it.
func (p *puppet) startBlock(left time.Duration) {
	b := p.blocks[0]
	p.running, p.started = true, p.now.Add(left-b.takes)
	p.moves = append(p.moves, p.now)
	p.round++
	round := p.round
	p.in(left, func() {
		if round != p.round || !p.running {
			return
		}
		p.running, p.blocks, p.idleAt = false, p.blocks[1:], p.now
		if len(p.blocks) > 0 {
			p.startBlock(p.blocks[0].takes)
		}
		p.parse()
	})
}
