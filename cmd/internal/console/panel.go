package console

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/schollz/progressbar/v3"

	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/export/report"
	"seamrail/motion/base/plain"
)

// The names of the marks that one key sets: where the move begins, and where it ends.
const (
	Start = "start"
	End   = "end"
)

// Place is what the place of an axis can be marked as.
type Place struct {
	Name  string
	Words string // what it is, and where
}

// Marking is what a mark came to.
type Marking struct {
	Text string
	// Write writes it, and says so, where somebody has to say yes to that first; nil where
	// it is written.
	Write func() (string, error)
}

// Axis is an axis as the operator knows it.
type Axis struct {
	Name     string
	Unit     string          // "mm" or "deg"
	Speeds   []float64       // at which keys move it, units/s
	Rests    []drive.JogRest // of each, how it comes to rest once it is let go of
	Min, Max float64         // its travel, but for an endless one
	Endless  bool
}

// Options says what a panel is for.
type Options struct {
	Out      io.Writer
	Live     bool // Out is a terminal: a bar is drawn and keys are told of
	Keys     bool // somebody can press keys
	Virtual  bool // the rig is made of software: nothing is filmed
	Width    int  // characters of a line, when live
	Axes     []Axis
	Cautions []string // what to read before it moves
	// Places lists what an axis of the plan can be marked as, and Mark keeps where it
	// stands.
	Places func(axis int) []Place
	Mark   func(name string, axis int, at float64) (Marking, error)
	Level  int    // of the speeds, at which keys begin to move an axis
	Known  bool   // the cautions are known: no key that moves it asks for the word first
	ByHand bool   // nothing but that: no takes, and the cautions come first
	Stands string // of that: where every axis stands when the p key is pressed, in words
	// MarkTake says something of a take in the log; nil where nothing is filmed.
	MarkTake func(take int, mark takelog.Record) error
}

// Panel is drive.Observer, and the meaning of the keys. Keys may be pressed on
// another goroutine than the engine's.
type Panel struct {
	Options
	mu     sync.Mutex
	hand   hand         // what keys move an axis with
	jogged map[int]bool // axes moved by keys since they were last marked
	state  drive.State
	typed  []rune
	marks  sync.WaitGroup                          // of takes, on their way into the log
	prompt func(word string) (drive.Request, bool) // what is done with a word that is typed; nil = keys are keys
	asked  bool                                    // whether to write a mark all the same
	yes    func() (string, error)                  // which does so
	taken  int                                     // number of the last take; 0 = none yet
	bar    *progressbar.ProgressBar
	round  int64 // last one told in plain lines
}

// New returns a panel.
func New(o Options) *Panel {
	return &Panel{Options: o, jogged: map[int]bool{}, round: -2, hand: hand{level: o.Level}}
}

// NoEmergencyStop is what has to be said of every stop that software makes.
const NoEmergencyStop = "This is no emergency stop: a real one cuts motor power. Keep its switch at hand."

// say prints text as it is.
func (p *Panel) say(text string) {
	p.clear()
	_, _ = io.WriteString(p.Out, text) // a screen that is gone must not end a run
}

func (p *Panel) line(format string, args ...any) {
	p.say(Folded(fmt.Sprintf(format, args...), p.Width) + "\n")
}

// Enter tells each state, and the keys it takes.
func (p *Panel) Enter(s drive.State) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if s == drive.Unsettled && p.state == s {
		return // an axis was moved: nothing else is known than before
	}
	p.state, p.prompt, p.typed = s, nil, nil
	if s == drive.Cautioning {
		p.cautions()
		return
	}
	if text := stateWords[s]; text != "" {
		p.line("%s", text)
	}
	switch text := keyWords[s]; {
	case text == "" || !p.Keys:
	case p.unread():
		p.cautions()
	case p.ByHand && (s == drive.Ready || s == drive.Unsettled):
		p.line("  %s", p.handHelp())
	default:
		p.line("  %s", p.keysOf(s, text))
	}
}

// stateWords say what the rig is doing, where the engine does not say more.
var stateWords = map[drive.State]string{
	drive.Opening:     "Waiting for the controller.",
	drive.Reading:     "Reading its settings.",
	drive.Unsettled:   "Where the rig stands is not known.",
	drive.Homing:      "Homing: it moves to its switches.",
	drive.Ready:       "Ready.",
	drive.Posing:      "Going to the frame, gently, one axis after the other.",
	drive.Approaching: "Going to the start, gently.",
	drive.Running:     "Rolling.",
	drive.Slowing:     "Slowing down.",
	drive.Draining:    "No longer fed: it moves on until what it holds is done.",
	drive.Resting:     "Held.",
	drive.Returning:   "Going back to the start.",
}

// keyWords say which keys a state takes.
var keyWords = map[drive.State]string{
	drive.Unsettled: "h homes it. Or bring every axis to the start of the take, by hand or with keys, then p.  %sq leaves",
	drive.Ready: "Enter runs the next take.  w walks through it slowly.  f goes to a frame.  %sm marks where it stands; s, e: here is the start, the end of the move.  " +
		keepWords + "q leaves",
	drive.Running:  "Space stops.  f ends after this round.",
	drive.Slowing:  "Space again aborts: position is then lost.",
	drive.Draining: "Space again aborts: position is then lost.",
	drive.Resting:  "r goes on in the same round, out of step with the frames.  n begins anew, as another take.  q leaves",
	drive.Awaiting: "Take the frame, then t.  Space rests.  q leaves",
}

// keepWords tell of the keys that mark a take, where there is one to mark.
const keepWords = "Of the last take: k keeps it, x says why it is of no use, c which clip it is.  "

func (p *Panel) keysOf(s drive.State, text string) string {
	if p.MarkTake == nil {
		text = strings.ReplaceAll(text, keepWords, "")
	}
	if !strings.Contains(text, "%s") {
		return text
	}
	if len(p.Axes) == 0 {
		return fmt.Sprintf(text, "")
	}
	return fmt.Sprintf(text, p.handWords()+"  "+p.handKeys())
}

func (p *Panel) cautions() {
	p.line("Before it moves:")
	for _, c := range p.Cautions {
		p.line("  "+bullet+"%s", c)
	}
	if p.Keys {
		p.line("Type %s and press Enter when the way is clear.", clearWord)
	}
}

// Say prints what the engine has to say. Cautions have been said with the
// others.
func (p *Panel) Say(text string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.state == drive.Cautioning && slices.Contains(p.Cautions, text) {
		return
	}
	p.told(text)
}

// told prints what comes from elsewhere, line by line: a screen obeys none of it.
func (p *Panel) told(text string) {
	for line := range strings.SplitSeq(text, "\n") {
		p.line("%s", plain.Text(line))
	}
}

const bell = "\a"

// Count counts in, with a bell on a terminal.
func (p *Panel) Count(left int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	ring := ""
	if p.Live {
		ring = bell
	}
	if left > 0 {
		p.line("%s%d", ring, left)
	}
}

// Marked keeps where the axis stands that the mark is of.
func (p *Panel) Marked(name string, at []float64) {
	p.mu.Lock()
	defer p.mu.Unlock()
	cut := max(strings.LastIndex(name, markAxis), 0)
	axis, err := strconv.Atoi(strings.TrimPrefix(name[cut:], markAxis))
	if p.Mark == nil || err != nil || axis < 0 || axis >= len(at) {
		return
	}
	m, err := p.marking(name[:cut], axis, at[axis])
	if err != nil {
		m.Text = err.Error()
	}
	p.told(m.Text)
	if p.yes, p.asked = m.Write, m.Write != nil; p.asked {
		p.line("y writes it all the same; any other key leaves the shot as it is")
	}
}

// marking keeps a place, or writes one of which it was asked whether to.
func (p *Panel) marking(name string, axis int, at float64) (m Marking, err error) {
	if name != yesMark {
		return p.Mark(name, axis, at)
	}
	if p.yes != nil {
		m.Text, err = p.yes()
	}
	return m, err
}

// Call counts a hand to its moment, with a bell on a terminal. A plain page is
// told the moment alone.
func (p *Panel) Call(b drive.Beat) {
	p.mu.Lock()
	defer p.mu.Unlock()
	ring := ""
	if p.Live {
		ring = bell
	}
	switch {
	case b.Left == 0:
		p.line("%sNOW: %s", ring, plain.Text(b.Text))
	case p.Live:
		p.line("%s%d: %s", ring, b.Left, plain.Text(b.Text))
	}
}

// bullet stands before a caution.
const bullet = "! "

// Folded breaks the lines of a text between words so that they fit a width, the
// rest of a line under its beginning. A width of 0 leaves them as they are.
func Folded(text string, width int) string {
	if width <= 0 {
		return text
	}
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		body := strings.TrimPrefix(strings.TrimLeft(line, " "), bullet)
		lead := line[:len(line)-len(body)]
		parts := report.Fold(body, max(width-len(lead), 1))
		lines[i] = lead + strings.Join(parts, "\n"+strings.Repeat(" ", len(lead)))
	}
	return strings.Join(lines, "\n")
}
