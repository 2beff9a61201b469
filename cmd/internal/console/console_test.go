package console_test

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/console"
	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
)

func TestKeys(t *testing.T) {
	for text, want := range map[string][]console.Key{
		"":                     nil,
		"gé":                   {'g', 'é'},
		"\x1b[A\x1b[B":         {console.Up, console.Down},
		"\x1b[C\x1bOD":         {console.Right, console.Left},
		"\x1b[1;2Cq":           {console.Right, 'q'},
		"\x1b":                 {console.Escape},
		"\x1bq":                {console.Escape, 'q'},
		"\x1b[3~\x1b[":         {console.Other, console.Other},
		"\x03\r\n\t\x7f":       {console.Interrupt, console.Enter, console.LineFeed, console.Tab, console.Delete},
		"\xff":                 {'\ufffd'},
		strings.Repeat(" ", 3): {' ', ' ', ' '},
	} {
		assert.Equal(t, want, console.Keys([]byte(text)), "%q", text)
	}
}

func FuzzKeys(f *testing.F) {
	f.Add([]byte("\x1b[1;2Cq\xff"))
	f.Fuzz(func(t *testing.T, b []byte) {
		assert.LessOrEqual(t, len(console.Keys(b)), len(b))
	})
}

var axes = []console.Axis{{Name: "rail", Unit: "mm", Speeds: []float64{2, 8, 20, 40}, Rests: []drive.JogRest{{Way: 0.1}, {Way: 0.6}, {Way: 1.5}, {Way: 3}}, Max: 400}, {Name: "table", Unit: "deg", Speeds: []float64{0.5, 2, 5, 9}, Endless: true}}

// holding is what an arrow key asks for on a terminal that does not tell when it is let go of.
func holding(axis int, speed float64) drive.Request {
	return drive.Request{Kind: drive.JogHold, Axis: axis, Speed: speed, For: 120 * time.Millisecond}
}

func panel(o console.Options) (*console.Panel, *bytes.Buffer) {
	var out bytes.Buffer
	o.Out, o.Keys, o.Axes = &out, true, axes
	o.Known = o.Known || !o.ByHand
	return console.New(o), &out
}

// What each key asks for in each state.
func TestPress(t *testing.T) {
	for _, c := range []struct {
		state drive.State
		keys  string
		want  []drive.Request
	}{
		{drive.Running, "x", nil},
		{drive.Running, "F", []drive.Request{{Kind: drive.Finish}}},
		{drive.Running, " \x1b\x03q", []drive.Request{{Kind: drive.Stop}, {Kind: drive.Stop}, {Kind: drive.Stop}, {Kind: drive.Quit}}},
		{drive.Running, "g\r\x1b[A", nil},
		{drive.Counting, " ", []drive.Request{{Kind: drive.Stop}}},
		{drive.Ready, "g\r", []drive.Request{{Kind: drive.Go}, {Kind: drive.Go}}},
		{drive.Ready, "seh", []drive.Request{{Kind: drive.Home}}},
		{drive.Ready, "\x1b[As\x1b[Bee", []drive.Request{holding(0, 2), {Kind: drive.Mark, Name: "start of 0"}, holding(0, -2), {Kind: drive.Mark, Name: "end of 0"}}},
		{drive.Ready, "3\x1b[A+\x1b[B++\x1b[B\t-\x1b[C1-\x1b[D", []drive.Request{holding(0, 20), holding(0, -40), holding(0, -40), holding(1, 5), holding(1, -0.5)}},
		{drive.Ready, "\t\t\x1b[C", []drive.Request{holding(0, 2)}},
		{drive.Ready, ",.\t.", []drive.Request{{Kind: drive.Jog, By: -0.1}, {Kind: drive.Jog, By: 0.1}, {Kind: drive.Jog, Axis: 1, By: 0.1}}},
		{drive.Unsettled, "hpug\x1b[C", []drive.Request{{Kind: drive.Home}, {Kind: drive.Here}, {Kind: drive.Unlock}, holding(0, 2)}},
		{drive.Resting, "rnf", []drive.Request{{Kind: drive.Resume}, {Kind: drive.Restart}}},
		{drive.Cautioning, "clear\r", []drive.Request{{Kind: drive.Confirm}}},
		{drive.Cautioning, "Clexx\x7f\x08AR \r", []drive.Request{{Kind: drive.Stop}, {Kind: drive.Decline}}},
		{drive.Cautioning, "clexx\x7f\x08ar\n", []drive.Request{{Kind: drive.Confirm}}},
		{drive.Cautioning, "\r", []drive.Request{{Kind: drive.Decline}}},
		{drive.Cautioning, "quickly\r", []drive.Request{{Kind: drive.Decline}}},
	} {
		t.Run(fmt.Sprintf("%v %q", c.state, c.keys), func(t *testing.T) {
			p, _ := panel(console.Options{})
			p.Enter(c.state)
			var got []drive.Request
			for _, k := range console.Keys([]byte(c.keys)) {
				if r, ok := p.Press(k); ok {
					got = append(got, r)
				}
			}
			assert.Equal(t, c.want, got)
		})
	}
}

func TestCautionsAreSaidOnceAndAsked(t *testing.T) {
	p, out := panel(console.Options{Cautions: []string{"Mind the cable.", "Glass breaks."}})
	p.Enter(drive.Cautioning)
	p.Say("Mind the cable.") // the engine says what the rig file warns of
	p.Say("it cannot home")
	assert.Equal(t, "Before it moves:\n  ! Mind the cable.\n  ! Glass breaks.\n"+
		"Type clear and press Enter when the way is clear.\nit cannot home\n", out.String())
}

func TestMarksGoToTheChosenAxis(t *testing.T) {
	var got []string
	p, out := panel(console.Options{Mark: func(name string, axis int, at float64) (console.Marking, error) {
		got = append(got, fmt.Sprint(name, axis, at))
		if axis == 1 {
			return console.Marking{}, errors.New("a turn has no end to set")
		}
		return console.Marking{Text: "written"}, nil
	}})
	p.Enter(drive.Ready)
	_, slip := p.Press('s')
	assert.False(t, slip, "nothing was moved to a place yet")
	p.Press(console.Up)
	first, _ := p.Press('s')
	p.Press(console.Tab)
	_, slip = p.Press('e')
	assert.False(t, slip, "the other axis was moved, not this")
	p.Press(console.Right)
	second, _ := p.Press('e')
	p.Marked(first.Name, []float64{40, 7})
	p.Marked(second.Name, []float64{40, 7})
	p.Marked("end of 2", []float64{40, 7})
	assert.Equal(t, []string{"start0 40", "end1 7"}, got)
	assert.Contains(t, out.String(), "written\na turn has no end to set\n")
	assert.Equal(t, 2, strings.Count(out.String(), "with the arrow keys first"))
}

func TestTheLastTakeIsKept(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var kept []takelog.Record
		p, out := panel(console.Options{MarkTake: func(n int, r takelog.Record) error { r.Take = n; kept = append(kept, r); return nil }})
		p.Enter(drive.Ready)
		p.Press('k')
		assert.Contains(t, out.String(), "there is no take to mark yet")
		p.Passed(drive.Pass{Take: 4, Rounds: 1, End: drive.Finished})
		p.Press('k')
		synctest.Wait()
		assert.Equal(t, []takelog.Record{{Kind: takelog.Keeper, Take: 4, Keep: true}}, kept)
		assert.Contains(t, out.String(), "take 4 is one to keep")
	})
}

// On a terminal of 80 characters an answer stands on the line of its question, and a stop
// begins a line of its own.
func TestQuestionsFitTheLine(t *testing.T) {
	p, out := panel(console.Options{Width: 80})
	p.Enter(drive.Ready)
	out.Reset()
	assert.Empty(t, pressed(p, "ft72"))
	assert.Less(t, len(out.String()), 80, out.String())
	assert.Equal(t, []drive.Request{{Kind: drive.Stop}}, pressed(p, " "))
	assert.True(t, strings.HasSuffix(out.String(), "t72\nstop\n"), out.String())
}

// What is typed of the last take goes into the log; nothing of it moves the rig or leaves,
// and the space bar stops as ever and takes it back.
func TestWordsOfTheLastTake(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var marks []takelog.Record
		p, out := panel(console.Options{MarkTake: func(n int, r takelog.Record) error { marks = append(marks, r); return nil }})
		p.Enter(drive.Ready)
		p.Passed(drive.Pass{Take: 4, Rounds: 1, End: drive.Finished})
		typed := func(keys string) (asked []drive.Request) {
			for _, k := range console.Keys([]byte(keys)) {
				if r, ok := p.Press(k); ok {
					asked = append(asked, r)
				}
			}
			synctest.Wait()
			return asked
		}
		assert.Empty(t, typed("xthe_glass_rangg\x7f\r"))
		assert.Empty(t, typed("cA001C004q\x7f.mov\r"))
		assert.Equal(t, []takelog.Record{{Kind: takelog.Refused, Why: "the glass rang"}, {Kind: takelog.Clipped, Clip: "A001C004.mov"}}, marks)
		assert.Contains(t, out.String(), "take 4 is rejected: the glass rang\n")
		assert.Contains(t, out.String(), "take 4 is A001C004.mov\n")
		assert.Equal(t, []drive.Request{{Kind: drive.Stop}, {Kind: drive.Go}}, typed("xrang \r"), "the space bar stops, and what was typed is gone")
		assert.Empty(t, typed("x\r"))
		assert.Empty(t, typed("ccard/7\r"))
		assert.Contains(t, out.String(), "not marked: why is empty")
		assert.Contains(t, out.String(), `not marked: the clip "card/7" has folders in it`)
		assert.Len(t, marks, 2)
	})
}

// Where nothing is filmed there is nothing to keep, and no word of it.
func TestWhatIsVirtualIsCalledSo(t *testing.T) {
	p, out := panel(console.Options{Virtual: true, Keys: true})
	p.Enter(drive.Ready)
	p.Progress(drive.Progress{State: drive.Running, Take: 4})
	p.Passed(drive.Pass{Take: 4, Rounds: 1, End: drive.Finished})
	p.Press('k')
	assert.NotContains(t, out.String(), "k keeps")
	assert.Contains(t, out.String(), "\nvirtual take 4  round 1")
	assert.Contains(t, out.String(), "\nVirtual take 4: finished, 1 round.")
	assert.Contains(t, out.String(), "there is no take to mark")
}

// A disk that takes its time keeps no key from stopping the rig.
func TestAKeyDoesNotWaitForTheDisk(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		disk := make(chan struct{})
		p, _ := panel(console.Options{MarkTake: func(int, takelog.Record) error { <-disk; return nil }})
		p.Enter(drive.Ready)
		p.Passed(drive.Pass{Take: 1, Rounds: 1, End: drive.Finished})
		p.Press('k')
		synctest.Wait()
		r, ok := p.Press(' ')
		assert.True(t, ok)
		assert.Equal(t, drive.Stop, r.Kind)
		close(disk)
	})
}

// A plain page has a line for what happens, and no bell, bar or return.
func TestPlainLines(t *testing.T) {
	var out bytes.Buffer
	p := console.New(console.Options{Out: &out, Axes: axes})
	p.Enter(drive.Counting)
	for n := 2; n >= 0; n-- {
		p.Count(n)
	}
	p.Enter(drive.Running)
	g := drive.Progress{State: drive.Running, Take: 1, Round: -1, Position: []float64{40, -1}}
	p.Progress(g)
	for range 3 {
		g.Round, g.Frame, g.Timecode, g.Position, g.Reported, g.Deviation = 0, 5, "01:00:00:01", []float64{40.126, 0}, true, []float64{-0.024, 0}
		p.Progress(g)
	}
	p.Passed(drive.Pass{Take: 1, Rounds: 3, Planned: 4.204, Executed: 4.2043, Uncertainty: 0.0028, Worst: []float64{-0.024, 0.0001}, End: drive.Finished})
	p.Passed(drive.Pass{Take: 2, Rounds: 1, Worst: []float64{0, 0}, Held: true, End: drive.Alarmed, Detail: "ALARM:1"})
	assert.Equal(t, `2
1
Rolling.
take 1  run-up  rail 40.00 mm  table -1.00 deg
take 1  round 1  frame 5  01:00:00:01  rail 40.13 mm -0.02  table 0.00 deg +0.00
Take 1: finished, 3 rounds, 4.204 s, give or take 2.8 ms, for 4.204 s, rail within 0.024 mm, table within 0.001 deg.
Take 2: alarm, 1 round, held on the way, so out of step with the frames; ALARM:1.
`, out.String())
}

// On a terminal a bar stays within the line, and is taken away before a line
// of text.
func TestTheBarFitsTheLine(t *testing.T) {
	const width = 60
	p, out := panel(console.Options{Live: true, Width: width})
	p.Enter(drive.Running)
	p.Count(1)
	assert.Contains(t, out.String(), "\a1")
	out.Reset()
	for i := range 50 {
		p.Progress(drive.Progress{
			State: drive.Running, Take: 12, Round: 1234, Frame: 719, Timecode: "01:00:00:01", Share: float64(i) / 50,
			Position: []float64{340.12, -1}, Reported: true, Deviation: []float64{0.01, 0}, Fill: 0.9, Late: 0.02,
		})
	}
	require.Contains(t, out.String(), "r1235 f719 01:00:00:01 rail 340.12+0.01")
	for _, line := range strings.Split(out.String(), "\r") {
		assert.LessOrEqual(t, len([]rune(line)), width, "%q", line)
	}
	out.Reset()
	p.Say("a word")
	assert.True(t, strings.HasSuffix(out.String(), "\ra word\n"), "%q", out.String())
}

func TestRawLines(t *testing.T) {
	var out bytes.Buffer
	n, err := console.Raw{W: &out}.Write([]byte("a\nb\n"))
	require.NoError(t, err)
	assert.Equal(t, 4, n)
	assert.Equal(t, "a\r\nb\r\n", out.String())
}

func TestTheLiveLineInWordsWhereThereIsRoom(t *testing.T) {
	for width, want := range map[int]string{
		120: "round 4  frame 28  01:00:01:04  rail 62.30 +0.01  table 199.01 -0.02  buffer 91 %",
		80:  "r4 f28 01:00:01:04 rail 62.30+0.01 table 199.01-0.02 buf 91%",
		60:  "r4 f28 01:00:01:04 rail 62.30+0.01",
	} {
		p, out := panel(console.Options{Live: true, Width: width})
		p.Progress(drive.Progress{State: drive.Running, Round: 3, Frame: 28, Timecode: "01:00:01:04",
			Position: []float64{62.3, 199.01}, Reported: true, Deviation: []float64{0.01, -0.02}, Fill: 0.91})
		assert.Contains(t, out.String(), want+" ", "%d", width)
	}
}

func TestFolded(t *testing.T) {
	const text = "  ! One two three four.\nFive six seven"
	assert.Equal(t, text, console.Folded(text, 0))
	assert.Equal(t, "  ! One two\n    three\n    four.\nFive six\nseven", console.Folded(text, 12))
	assert.Equal(t, "", console.Folded("", 12))
}

// A terminal obeys nothing of what a controller, a file or its name holds.
func TestWhatIsToldIsPlain(t *testing.T) {
	var out bytes.Buffer
	p := console.New(console.Options{Out: &out, Mark: func(string, int, float64) (console.Marking, error) {
		return console.Marking{}, errors.New("no file a\u202eb\x1b[2J.toml")
	}})
	p.Say("[MSG:\x1b]0;x\x07]\nnext\u2028line")
	p.Call(drive.Beat{Text: "drop\u200b\u009b1m"})
	p.Marked(console.Start+" of 0", []float64{1})
	assert.Equal(t, "[MSG: ]0;x ]\nnext line\nNOW: drop\ufffd 1m\nno file a\ufffdb [2J.toml\n", out.String())
}
