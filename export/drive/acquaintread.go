package drive

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"seamrail/export/drive/stepplayer"
	"seamrail/motion/spec/rig"
)

// read learns all that who has been recognised tells.
func (q *inquiry) read() error {
	q.echoed = false
	if q.frames > 0 {
		return q.readPlayer()
	}
	return q.readWords()
}

// readPlayer asks a step player who it is and what it does.
func (q *inquiry) readPlayer() error {
	b := &q.board
	b.Kind = rig.StepPlayer
	b.Because = []string{"it answers in the frames of a step player"}
	q.tell(fmt.Sprintf("%d baud: a step player; asking what it has", q.baud))
	q.player = nil
	q.out.send(stepplayer.Frame{Type: stepplayer.Ask}.Append(nil))
	if _, err := q.until(provokeWait, func() bool { return q.player != nil }); err != nil {
		return err
	}
	if q.player != nil {
		b.Reports, b.State, b.Alarm = true, q.player.State.String(), q.player.State == stepplayer.Alarm
		b.Motors = len(q.player.Steps)
		if q.player.State.Moves() {
			return failed(Refused, "it is still %s, and was not told to be: stop it, or wait until it rests", b.State)
		}
	}
	if q.info == nil {
		q.out.send(stepplayer.Frame{Type: stepplayer.Hello}.Append(nil))
		if _, err := q.until(provokeWait, func() bool { return q.info != nil }); err != nil {
			return err
		}
	}
	if q.info == nil {
		return failed(Foreign, "it speaks in frames, and does not say hello")
	}
	if v := q.info.Version; v < stepplayer.Version || v > stepplayer.VersionOutputs {
		return failed(Foreign, "it speaks version %d of the protocol, and this is version %d", v, stepplayer.VersionOutputs)
	}
	b.Motors, b.Rows, b.Shortest, b.Greeting = q.info.Axes, q.info.Capacity, float64(q.info.Shortest)*1e-9, q.info.Name
	b.Outputs = q.info.Outputs
	b.Said = []string{fmt.Sprintf("it is called %q, and has %d motors, %d outputs, room for %d rows and ticks from %g ms",
		shortened(b.Greeting), b.Motors, b.Outputs, b.Rows, b.Shortest*1000)}
	return nil
}

// The lines that ask and move nothing: of boards that print settings by number, and of
// those that take one line at a time (common practice of the kinds).
const (
	settingsByNumber, buildLine                   = "$$", "$I"
	aboutLine, settingsByWord, whereLine, readSep = "M115", "M503", "M114", ":"
)

// readWords asks a board that reads words.
func (q *inquiry) readWords() error {
	b := &q.board
	if q.status != nil {
		b.Because = append(b.Because, "it answers the status byte ? with a report")
		q.reported()
		if q.status.is("Run", "Jog", "Home", "Check") {
			return failed(Refused, "it is still at something, %q, and was not told to be: wait until it rests", q.status.state)
		}
	}
	q.tell(fmt.Sprintf("%d baud: it answers; asking for its settings with %s", q.baud, settingsByNumber))
	if err := q.settings(settingsByNumber); err != nil {
		return err
	}
	if q.status == nil && b.SettingsLine == "" {
		return q.readLockstep()
	}
	b.Kind = rig.Buffered
	if b.SettingsLine != "" {
		b.Because = append(b.Because, "it prints settings by number on "+settingsByNumber)
	}
	return q.learn(buildLine)
}

// readLockstep asks a board that has no status byte and no settings by number.
func (q *inquiry) readLockstep() error {
	b := &q.board
	b.Kind = rig.Lockstep
	b.Because = append(b.Because, "it answers ok to an empty line, has no report for the status byte ? and no settings by number")
	q.tell(fmt.Sprintf("%d baud: one line, one answer; asking %s, %s and %s", q.baud, aboutLine, settingsByWord, whereLine))
	for _, ask := range []func() error{
		func() error { return q.learn(aboutLine) },
		func() error { return q.settings(settingsByWord) },
		func() error { return q.learn(whereLine) },
	} {
		if err := ask(); err != nil {
			return err
		}
	}
	return nil
}

// reported keeps what the last report tells. The room that it tells at rest is all
// there is.
func (q *inquiry) reported() {
	b, s := &q.board, q.status
	b.Reports, b.State = true, s.state
	b.Alarm = b.Alarm || s.is("Alarm")
	b.Places = max(len(s.machine), len(s.work))
	if s.is("Idle", "Alarm") && s.blocks > 0 && s.bytes > 0 {
		b.Blocks, b.Bytes = s.blocks, s.bytes
	}
}

// settings has it print them.
func (q *inquiry) settings(line string) error {
	ok, err := q.exchange(line)
	if err != nil || !ok {
		return err
	}
	b, before := &q.board, len(q.board.Settings)
	for _, text := range q.talk {
		settings(b.Settings).hear(text)
		pairs(text, func(name, value string) {
			if _, is := number(value); !is && settingName().MatchString(name) {
				b.Odd[name] = value
			}
		})
		if strings.Contains(text, "G20") { // it says in which units it prints
			b.Inches = true
		}
	}
	if len(b.Settings) > before || len(b.Odd) > 0 {
		b.SettingsLine = line
	}
	return nil
}

// settingName is what boards call settings: "$100", "M92 X".
var settingName = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(\$\d+|M\d+ [A-Z])$`) })

// learn has it print what it is, of which this and that is understood and all is kept.
func (q *inquiry) learn(line string) error {
	ok, err := q.exchange(line)
	if err != nil || !ok {
		return err
	}
	for _, text := range q.talk {
		q.board.Said = append(q.board.Said, text)
		q.understand(text)
	}
	return nil
}

// understand takes out of a line what this program goes by: "[OPT:V,15,128]" tells
// blocks and bytes, "[AXS:3:XYZ]" letters (from memory, as boards of the kind are
// documented), "X:0.00 Y:0.00 Count ..." the letters whose place is told.
func (q *inquiry) understand(text string) {
	b := &q.board
	inside := strings.TrimSuffix(strings.TrimPrefix(text, "["), "]")
	name, value, _ := strings.Cut(inside, readSep)
	switch name {
	case "OPT":
		f := strings.Split(value, ",")
		if len(f) < 3 {
			return
		}
		blocks, err := strconv.Atoi(f[1])
		bytes, err2 := strconv.Atoi(f[2])
		if err == nil && err2 == nil && blocks > 0 && bytes > 0 && b.Blocks == 0 {
			b.Blocks, b.Bytes = blocks, bytes
		}
	case "AXS":
		if _, letters, ok := strings.Cut(value, readSep); ok {
			b.Letters = letters
		}
	default:
		if found := placeLetters().FindAllStringSubmatch(text, -1); len(found) > 1 && b.Letters == "" && strings.HasPrefix(text, "X:") {
			for _, m := range found {
				if !strings.Contains(b.Letters, m[1]) {
					b.Letters += m[1]
				}
			}
		}
	}
}

var placeLetters = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`\b([XYZUVWABC]):\s*-?\d`) })

// exchange sends a line, keeps what it says to it and tells whether it obeyed. What a
// board is silent on or refuses is not known of it, and no fault.
func (q *inquiry) exchange(line string) (bool, error) {
	q.talk = nil
	before, oks, end := q.answers, q.oks, q.now.Add(longestRead)
	q.at = q.now
	q.out.send([]byte(line + "\n"))
	for q.answers == before && q.now.Before(end) && q.now.Sub(q.at) < patience {
		if err := q.wait(earlier(end, q.at.Add(patience))); err != nil {
			return false, err
		}
	}
	switch {
	case q.answers == before:
		q.tell(fmt.Sprintf("%s: no answer", line))
	case q.oks == oks:
		q.tell(fmt.Sprintf("%s: it refuses that (%s)", line, shortened(q.refused)))
	}
	return q.oks > oks, nil
}
