package drive

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"seamrail/export/drive/stepplayer"
	"seamrail/motion/base/list"
	"seamrail/motion/spec/rig/rigfile"
)

// Wire is a World that is given back when no more is asked.
type Wire interface {
	World
	Close() error
}

// Dial opens a port at a speed in bits a second.
type Dial func(baud int) (Wire, error)

// Bauds are the speeds that boards talk at, the most usual first (common practice).
func Bauds() []int { return []int{defaultBaud, 250000, 57600, 38400, 230400, 19200, 9600} }

// defaultBaud is what most boards talk at.
const defaultBaud = 115200

const (
	// listenWait is how long a board may take to say something as the port opens: a
	// boot loader that waits for an upload takes two seconds. One that takes longer is
	// asked again and again for greetWait, at the first speed.
	listenWait = 2500 * time.Millisecond
	// reportWait is how long a report may take: those who have a status byte answer in
	// some milliseconds, those who dwell in grains when a grain is over.
	reportWait = 400 * time.Millisecond
	// longestRead bounds a text: some kilobytes at the slowest speed take ten seconds.
	longestRead = 30 * time.Second
)

// Acquaint greets whatever is at a port, and reads what it tells of itself. Nothing
// that is sent makes anything move: a status byte, an empty line, lines that ask, and,
// where none of them has brought a word, the hello of a step player, which holds a byte
// that has a board of lines go on after a hold. It tells what it does as it does it. The
// error is a *Failure, or that of the first dial.
func Acquaint(dial Dial, bauds []int, tell func(string)) (rigfile.Board, error) {
	var all []hearing
	for i, baud := range bauds {
		w, err := dial(baud)
		if err != nil && i > 0 {
			tell(fmt.Sprintf("%d baud: %v", baud, err))
			continue
		}
		if err != nil {
			return rigfile.Board{}, err
		}
		q := newInquiry(w, baud, tell)
		known, err := q.greet(i == 0)
		if known && err == nil {
			err = q.read()
		}
		if err = errors.Join(err, w.Close()); err != nil || known {
			return q.board, err
		}
		tell(fmt.Sprintf("%d baud: %s", baud, q.hearing))
		all = append(all, q.hearing)
	}
	return rigfile.Board{}, nobody(all)
}

// hearing is what came at a speed where nobody was recognised.
type hearing struct {
	baud     int
	bytes    int
	strange  int    // of them, those of no plain text
	stranger string // a line that can be read and is no answer
	echoed   bool   // what was sent came back
}

// String prints it in words.
func (h hearing) String() string {
	switch {
	case h.echoed:
		return "what is sent comes back"
	case h.foreign():
		return fmt.Sprintf("it says %q, and answers nothing that is asked", shortened(h.stranger))
	case h.bytes > 0:
		return "bytes come that cannot be read"
	}
	return "nothing comes"
}

// foreign tells whether most of it can be read.
func (h hearing) foreign() bool { return h.stranger != "" && h.strange*2 < h.bytes }

// nobody says what is there in place of a controller.
func nobody(all []hearing) *Failure {
	tried := strings.Join(list.Map(all, func(h hearing) string { return fmt.Sprint(h.baud) }), ", ")
	for _, h := range all {
		switch {
		case h.echoed:
			return failed(Foreign, "what is sent comes back as it was (%d baud)", h.baud)
		case h.foreign():
			return failed(Foreign, "at %d baud %s", h.baud, h)
		}
	}
	for _, h := range all {
		if h.bytes > 0 {
			return failed(Garbled, "bytes come that cannot be read; tried were %s baud", tried)
		}
	}
	return failed(Silent, "not a byte has come, as the port opened or when asked; tried were %s baud", tried)
}

// inquiry is one controller, at one speed, that is asked who it is.
type inquiry struct {
	w    World
	now  time.Time
	out  wire
	tell func(string)
	hearing

	lines   lines
	reader  stepplayer.Reader
	oks     int
	refused string // the last error it answered with
	answers int    // of either
	status  *status
	info    *stepplayer.Player
	player  *stepplayer.Status
	frames  int
	talk    []string  // lines that are neither answer nor report, since asked last
	at      time.Time // when the last byte came
	asked   bool

	board rigfile.Board
}

func newInquiry(w World, baud int, tell func(string)) *inquiry {
	q := &inquiry{w: w, now: w.Now(), tell: tell, hearing: hearing{baud: baud}}
	q.board = rigfile.Board{Baud: baud, Settings: settings{}, Odd: map[string]string{}}
	return q
}

// until waits for done, at most so long, and tells whether it came.
func (q *inquiry) until(limit time.Duration, done func() bool) (bool, error) {
	end := q.now.Add(limit)
	for !done() {
		if !q.now.Before(end) {
			return false, nil
		}
		if err := q.wait(end); err != nil {
			return false, err
		}
	}
	return true, nil
}

// wait lets the world go on until something happens, at most until then.
func (q *inquiry) wait(until time.Time) error {
	if err := q.out.flush(q.w); err != nil {
		return failed(PortLost, "%v", err)
	}
	if q.out.waiting() {
		until = earlier(until, q.now.Add(retryAfter))
	}
	e := q.w.Wait(later(until, q.now.Add(minWait)))
	q.now = q.w.Now()
	switch {
	case e.Kind == Heard:
		q.heard(e.Bytes)
	case e.Kind == Gone:
		return failed(PortLost, "%v", e.Err)
	case e.Kind == Asked && (e.Request.Kind == Stop || e.Request.Kind == Quit):
		return errStopped
	}
	return nil
}

// greet listens, and then asks, until somebody is recognised. Who is patient asks for as
// long as any board takes to begin.
func (q *inquiry) greet(patient bool) (bool, error) {
	opened := q.now
	q.tell(fmt.Sprintf("%d baud: listening", q.baud))
	if _, err := q.until(listenWait, q.sensible); err != nil {
		return false, err
	}
	if len(q.talk) > 0 {
		if err := q.settle(); err != nil {
			return false, err
		}
		q.board.Greeting = firstWords(q.talk)
	}
	for {
		if err := q.ask(); err != nil {
			return false, err
		}
		if q.known() {
			return true, nil
		}
		if !patient || q.strange > 0 || q.now.Sub(opened) >= greetWait {
			return false, nil
		}
	}
}

// settle waits until it has said what it says as it begins; what never stops talking is
// not waited for.
func (q *inquiry) settle() error {
	q.at = q.now
	for end := q.now.Add(greetWait); q.now.Before(end) && q.now.Sub(q.at) < chatter; {
		if err := q.wait(q.at.Add(chatter)); err != nil {
			return err
		}
	}
	return nil
}

// firstWords is the first of some lines that is no note in brackets.
func firstWords(lines []string) string {
	for _, l := range lines {
		if !strings.HasPrefix(l, "[") {
			return l
		}
	}
	return ""
}

// sensible tells whether something has come that can be read.
func (q *inquiry) sensible() bool { return len(q.talk) > 0 || q.known() }

// known tells whether it has answered as a controller does.
func (q *inquiry) known() bool { return q.frames > 0 || q.status != nil || q.oks > 0 }

// ask sends once what every kind can be asked.
func (q *inquiry) ask() error {
	q.asked = true
	if q.frames > 0 {
		return nil
	}
	q.out.send([]byte{statusByte})
	if _, err := q.until(reportWait, q.known); err != nil {
		return err
	}
	for range 2 { // the first ends a line that the byte has begun, where it is none
		before := q.answers
		q.out.send([]byte("\n"))
		if _, err := q.until(provokeWait, func() bool { return q.answers > before }); err != nil {
			return err
		}
		if q.oks > 0 || q.answers == before {
			break
		}
	}
	if q.known() || q.bytes > 0 {
		return q.settle()
	}
	return q.hello()
}

// statusByte is what boards of words are asked for a report with.
const statusByte = '?'

// hello asks a step player, and ends the line that another board may have made of it.
func (q *inquiry) hello() error {
	q.out.send(stepplayer.Frame{Type: stepplayer.Hello}.Append(nil))
	ok, err := q.until(provokeWait, func() bool { return q.frames > 0 })
	if !ok && err == nil {
		q.out.send([]byte("\n"))
	}
	return err
}
