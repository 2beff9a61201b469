package console_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/console"
	"seamrail/export/drive"
)

// What terminals send that tell when keys are let go of, and what they answer.
func TestStrokes(t *testing.T) {
	for text, want := range map[string][]console.Stroke{
		"\x1b[C":                       {{Key: console.Right, Event: console.Pressed}},
		"\x1b[1;1:2C\x1b[1;65:3D":      {{Key: console.Right, Event: console.Repeated}, {Key: console.Left, Event: console.LetGo}},
		"\x1b[?3u\x1b[?0u":             {{Key: console.TellsLetGo, Event: console.Pressed}, {Key: console.TellsLetGo, Event: console.Pressed}},
		"\x1b[O\x1b[I":                 {{Key: console.Unseen, Event: console.Pressed}, {Key: console.Other, Event: console.Pressed}},
		"\x1bOC":                       {{Key: console.Right, Event: console.Pressed}},
		"\x1b[27u\x1b[27;1:3u":         {{Key: console.Escape, Event: console.Pressed}, {Key: console.Escape, Event: console.LetGo}},
		"\x1b[99;5u":                   {{Key: console.Interrupt, Event: console.Pressed}},
		"\x1b[113;1:1u":                {{Key: 'q', Event: console.Pressed}},
		"\x1b[1;1:9C\x1b[;u\x1b[1;;:C": {{Key: console.Right, Event: console.Pressed}, {Key: console.Other, Event: console.Pressed}, {Key: console.Right, Event: console.Pressed}},
	} {
		assert.Equal(t, want, console.Strokes([]byte(text)), "%q", text)
	}
	assert.Empty(t, console.Keys([]byte("\x1b[1;1:3C")), "what is let go of is not pressed")
}

func pressed(p *console.Panel, text string) (out []drive.Request) {
	for _, s := range console.Strokes([]byte(text)) {
		if r, ok := p.Stroke(s); ok {
			out = append(out, r)
		}
	}
	return out
}

// Where a terminal tells when a key is let go of, a key holds until it is repeated, then
// from one repeat to the next, and ends with the key, the focus or another window.
func TestAHeldKey(t *testing.T) {
	p, _ := panel(console.Options{Live: true, Width: 80, Level: 1})
	p.Enter(drive.Ready)
	hold := drive.Request{Kind: drive.JogHold, Speed: 8, For: 600 * time.Millisecond}
	on := drive.Request{Kind: drive.JogHold, Speed: 8, For: 150 * time.Millisecond}
	off := drive.Request{Kind: drive.JogRelease}
	assert.Equal(t, []drive.Request{hold, on, off}, pressed(p, "\x1b[?3u\x1b[C\x1b[1;1:2C\x1b[1;1:3C"))
	assert.Empty(t, pressed(p, "\x1b[1;1:3C\x1b[1;1:3D\x1b[113;1:3u"), "which is not held")
	assert.Equal(t, []drive.Request{hold, off}, pressed(p, "\x1b[C\x1b[O"))
	assert.Equal(t, []drive.Request{hold, off}, pressed(p, "\x1b[C\x1b[1;1:3D\x1b[1;1:3C"), "another key is let go of")
	p.Enter(drive.Running)
	assert.Empty(t, pressed(p, "\x1b[C\x1b[1;1:2C"))
}

// It is said what a key moves and what a terminal costs, and where the axis is.
func TestWhereAnAxisIsThatIsMovedByHand(t *testing.T) {
	p, out := panel(console.Options{Live: true, Width: 80, Level: 2})
	p.Enter(drive.Ready)
	text := strings.Join(strings.Fields(out.String()), " ")
	assert.Contains(t, text, "Arrows, held, move rail at up to 20 mm/s, speed 3 of 4. Let go of, it goes on for up to 1.5 mm, as the rig file has it. This terminal does not tell when a key is let go of: it counts as held for 0.12 s, up to 2.4 mm more, and a tap is that short. Tab: another axis.")
	out.Reset()
	p.Jogged(drive.Jogged{At: []float64{12.5, 90}, Gone: 2, Moving: true})
	p.Jogged(drive.Jogged{At: []float64{9, 90}, Gone: -1.5, Moving: true})
	p.Jogged(drive.Jogged{At: []float64{9, 90}, Gone: -1.5})
	lines := strings.Split(out.String(), "\r")
	require.Len(t, lines, 5)
	assert.Equal(t, "rail 12.500 mm; 12.500 to its end at 0, 387.500 to that at 400", lines[1])
	assert.Equal(t, "rail 9.000 mm; 9.000 to its end at 0, 391.000 to that at 400  ", lines[2], "over the one before")
	assert.Equal(t, "rail 9.000 mm; 9.000 to its end at 0, 391.000 to that at 400\n", lines[4])
	out.Reset()
	p.Jogged(drive.Jogged{Axis: 1, Gone: -1.5})
	p.Jogged(drive.Jogged{Axis: 1, At: []float64{0, 725}})
	assert.Equal(t, "table -1.500 deg; where it stands is not known\ntable 725.000 deg\n", out.String())
	for _, width := range []int{1, 20, 40} {
		p, out := panel(console.Options{Live: true, Width: width})
		p.Jogged(drive.Jogged{At: []float64{12.5, 90}, Moving: true})
		assert.LessOrEqual(t, len(out.String())-1, max(width, 62*(2-min(width, 2))), "it fits")
	}
}

// Where nothing but a hand moves the rig, no key does before the word that the way is
// clear, and no take is run.
func TestTheCautionsComeFirst(t *testing.T) {
	p, out := panel(console.Options{ByHand: true, Stands: "it starts", Cautions: []string{"It pinches."}})
	p.Enter(drive.Unsettled)
	assert.Contains(t, out.String(), "! It pinches.\nType clear and press Enter")
	assert.Empty(t, pressed(p, "\x1b[C.h\rp\x7f\x7f"))
	assert.Equal(t, []drive.Request{{Kind: drive.Stop}}, pressed(p, " "))
	out.Reset()
	assert.Empty(t, pressed(p, "clear\r"))
	assert.Contains(t, out.String(), "5 mm or degrees a press.  h homes it; p: every axis stands where it starts")
	assert.Equal(t, []drive.Request{holding(0, 2), {Kind: drive.Here}}, pressed(p, "\x1b[Cp"))
	p.Enter(drive.Ready)
	assert.Equal(t, []drive.Request{holding(0, 2)}, pressed(p, "\x1b[C\rg"), "there are no takes")
	assert.Equal(t, []drive.Request{{Kind: drive.Quit}}, pressed(p, "q"))
	known, _ := panel(console.Options{ByHand: true, Known: true})
	known.Enter(drive.Ready)
	assert.Equal(t, []drive.Request{holding(0, 2)}, pressed(known, "\x1b[C"))
}

// Before takes are run, too, the first key that moves the rig asks for the word, once; a
// take, which has its own, and what moves nothing do not.
func TestTheFirstKeyThatMovesAsksForTheWord(t *testing.T) {
	home, arrow := drive.Request{Kind: drive.Home}, holding(0, 2)
	for _, c := range []struct {
		name  string
		state drive.State
		keys  string
		want  []drive.Request
		asked int
	}{
		{"home follows the word", drive.Unsettled, "hclear\rh", []drive.Request{home, home}, 1},
		{"an arrow is pressed again", drive.Ready, "\x1b[C\x1b[Cclear\r\x1b[C", []drive.Request{arrow}, 1},
		{"a step is pressed again", drive.Ready, ".clear\r.", []drive.Request{{Kind: drive.Jog, By: 0.1}}, 1},
		{"the frame follows", drive.Ready, "f72\rclear\r", []drive.Request{{Kind: drive.Pose, Name: "72"}}, 1},
		{"another word", drive.Unsettled, "hclean\rhclear\r", []drive.Request{home}, 2},
		{"a stop takes it back", drive.Unsettled, "h \x1b[C", []drive.Request{{Kind: drive.Stop}}, 2},
		{"nothing was moved that could be marked", drive.Ready, ".clear\rs.s", []drive.Request{{Kind: drive.Jog, By: 0.1}, {Kind: drive.Mark, Name: "start of 0"}}, 1},
		{"what moves nothing", drive.Unsettled, "puq", []drive.Request{{Kind: drive.Here}, {Kind: drive.Unlock}, {Kind: drive.Quit}}, 0},
		{"takes and walks have their own", drive.Ready, "gw", []drive.Request{{Kind: drive.Go}, {Kind: drive.WalkThrough}}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out bytes.Buffer
			p := console.New(console.Options{Out: &out, Keys: true, Axes: axes, Cautions: []string{"It pinches."}})
			p.Enter(c.state)
			assert.Equal(t, c.want, pressed(p, c.keys))
			assert.Equal(t, c.asked, strings.Count(out.String(), "! It pinches.\nType clear and press Enter"))
		})
	}
	p, _ := panel(console.Options{})
	p.Known = false
	p.Enter(drive.Cautioning)
	assert.Equal(t, []drive.Request{{Kind: drive.Confirm}}, pressed(p, "clear\r"))
	p.Enter(drive.Ready)
	assert.Equal(t, []drive.Request{arrow}, pressed(p, "\x1b[C"), "the word of a take will do")
}
