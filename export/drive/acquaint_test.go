package drive_test

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/drive"
	"seamrail/export/drive/stepplayer"
	"seamrail/export/drive/virtual"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/rig/rigfile"
)

// meeting is a board that somebody gets acquainted with, over a wire that listens in.
type meeting struct {
	*virtual.World
	rig    *virtual.Rig
	sent   []byte
	closed bool
}

func (m *meeting) Write(b []byte) (int, error) {
	n, err := m.World.Write(b)
	m.sent = append(m.sent, b[:n]...)
	return n, err
}

func (m *meeting) Close() error { m.closed = true; return nil }

// met is what came of a board, with all that was told and every wire that was opened.
func met(o virtual.Options) (rigfile.Board, []string, []*meeting, error) {
	var told []string
	var all []*meeting
	dial := func(baud int) (drive.Wire, error) {
		o := o
		o.HostBaud = baud
		r := virtual.New(o)
		m := &meeting{World: virtual.NewWorld(r), rig: r}
		all = append(all, m)
		return m, nil
	}
	b, err := drive.Acquaint(dial, drive.Bauds(), func(s string) { told = append(told, s) })
	return b, told, all, err
}

func boardOf(kind rig.ControllerKind) virtual.Options {
	o := virtual.Of(bench(kind))
	o.Greeting = "Board 7 of the bench"
	return o
}

// Every kind is known for what it is at whatever speed it talks, and nothing moves.
func TestEveryKindIsMet(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		for _, baud := range []int{115200, 250000, 9600} {
			o := boardOf(kind)
			o.Baud = baud
			b, _, all, err := met(o)
			require.NoError(t, err, "%v at %d", kind, baud)
			assert.Equal(t, kind, b.Kind)
			assert.Equal(t, baud, b.Baud)
			assert.NotEmpty(t, b.Because)
			assert.NotEmpty(t, b.Greeting)
			for _, m := range all {
				assert.True(t, m.closed)
				assert.Zero(t, m.rig.Record().Len(), "nothing moves")
			}
		}
	}
}

func TestABufferedBoardTellsAll(t *testing.T) {
	o := boardOf(rig.Buffered)
	o.Answers = map[string][]string{"$I": {"[VER:of the bench]", "[OPT:V,15,128]", "[AXS:2:XA]"}}
	b, told, all, err := met(o)
	require.NoError(t, err)
	assert.Equal(t, "Board 7 of the bench", b.Greeting)
	assert.Equal(t, []string{"[VER:of the bench]", "[OPT:V,15,128]", "[AXS:2:XA]"}, b.Said)
	assert.Equal(t, "Alarm", b.State, "a board that homes begins in one, and is read all the same")
	assert.True(t, b.Alarm)
	assert.Equal(t, "$$", b.SettingsLine)
	assert.Equal(t, "XA", b.Letters)
	assert.Equal(t, [2]int{15, 127}, [2]int{b.Blocks, b.Bytes}, "what it reports goes before what it was built with")
	for name, want := range map[string]float64{"$1": 255, "$11": 0.01, "$100": 80, "$113": 10800, "$130": 400} {
		assert.Equal(t, want, b.Settings[name], name)
	}
	assert.Contains(t, told, "115200 baud: listening")
	assert.NotContains(t, string(all[0].sent), "~", "a byte that goes on after a hold is not sent to a board that talks")
}

func TestALockstepBoardTellsWhatItCan(t *testing.T) {
	o := boardOf(rig.Lockstep)
	o.SettingsLine = "M503"
	o.Axes[0].StepsName, o.Axes[0].SpeedName, o.Axes[0].AccelerationName = "M92 X", "M203 X", "M201 X"
	o.Others = []string{"echo:  G21    ; in mm", "echo:  M92 Y0.00 Zlots"}
	o.Answers = map[string][]string{"M115": {"BUILD of the bench", "Cap:TELLS:1"}, "M114": {"X:0.00 Y:0.00 E:0.00 Count X:0 Y:0"}}
	b, _, _, err := met(o)
	require.NoError(t, err)
	assert.Equal(t, rig.Lockstep, b.Kind)
	assert.Equal(t, "M503", b.SettingsLine)
	assert.Equal(t, map[string]float64{"M92 X": 80, "M203 X": 400, "M201 X": 3000, "M92 Y": 0}, only(b.Settings, "M"))
	assert.Equal(t, "lots", b.Odd["M92 Z"])
	assert.Equal(t, "XY", b.Letters)
	assert.Contains(t, b.Said, "Cap:TELLS:1")
}

func only(all map[string]float64, prefix string) map[string]float64 {
	out := map[string]float64{}
	for name, x := range all {
		if strings.HasPrefix(name, prefix) {
			out[name] = x
		}
	}
	return out
}

// Texts that take seconds on a slow wire are read to their end.
func TestABoardOnASlowWire(t *testing.T) {
	o := boardOf(rig.Buffered)
	o.Baud = 4800
	for i := range 60 {
		o.Others = append(o.Others, fmt.Sprintf("$%d=1 (a setting that is told of in a long text)", 300+i))
	}
	w := &meeting{World: virtual.NewWorld(virtual.New(o))}
	b, err := drive.Acquaint(func(int) (drive.Wire, error) { return w, nil }, []int{o.Baud}, func(string) {})
	require.NoError(t, err)
	assert.Contains(t, b.Settings, "$359")
	assert.Greater(t, w.Now().Sub(virtual.Epoch), 6*time.Second)
}

func TestAStepPlayerSaysHello(t *testing.T) {
	o := boardOf(rig.StepPlayer)
	for _, resets := range []bool{true, false} {
		o.ResetsOnOpen = resets
		b, _, _, err := met(o)
		require.NoError(t, err)
		assert.Equal(t, "virtual", b.Greeting)
		assert.Equal(t, 2, b.Motors)
		assert.Equal(t, 1024, b.Rows)
		assert.InDelta(t, 50e-6, b.Shortest, 1e-12)
		assert.Equal(t, "standing by", b.State)
		assert.Zero(t, b.Outputs)
	}
	o.Numbered = 3
	b, _, _, err := met(o)
	require.NoError(t, err, "one that has outputs speaks version 2")
	assert.Equal(t, 3, b.Outputs)
	assert.Contains(t, string(rigfile.File(b)), "# [output.lamp-3]")
}

// Where nobody answers, what was seen says why.
func TestNobodyIsMet(t *testing.T) {
	for name, c := range map[string]struct {
		change func(o *virtual.Options)
		end    drive.End
		want   string
	}{
		"silence":       {func(o *virtual.Options) { o.Faults = []virtual.Fault{{Kind: virtual.FallSilent}} }, drive.Silent, "not a byte has come"},
		"another speed": {func(o *virtual.Options) { o.Baud = 74880 }, drive.Garbled, "bytes come that cannot be read; tried were 115200, 250000"},
		"gone":          {func(o *virtual.Options) { o.Faults = []virtual.Fault{{Kind: virtual.Vanish, At: time.Second}} }, drive.PortLost, "gone"},
	} {
		o := boardOf(rig.Buffered)
		c.change(&o)
		_, _, all, err := met(o)
		var f *drive.Failure
		require.ErrorAs(t, err, &f, name)
		assert.Equal(t, c.end, f.End, name)
		assert.ErrorContains(t, err, c.want, name)
		for _, m := range all {
			assert.True(t, m.closed, name)
		}
	}
}

// other is a thing at a port that answers as it likes.
type other struct {
	now     time.Time
	answer  func(sent []byte) string
	heard   string
	unasked string
}

func (o *other) Now() time.Time { return o.now }

func (o *other) Write(b []byte) (int, error) { o.heard += o.answer(b); return len(b), nil }

func (o *other) Wait(until time.Time) drive.Event {
	o.heard, o.unasked = o.unasked+o.heard, ""
	if o.heard != "" {
		e := drive.Event{Kind: drive.Heard, Bytes: []byte(o.heard)}
		o.heard, o.now = "", o.now.Add(time.Millisecond)
		return e
	}
	o.now = until
	return drive.Event{}
}

func (o *other) Close() error { return nil }

func TestAnotherKindOfMachine(t *testing.T) {
	for name, c := range map[string]struct {
		answer  func([]byte) string
		unasked string
		want    string
	}{
		"an echo":  {func(b []byte) string { return string(b) }, "", "what is sent comes back"},
		"a modem":  {func(b []byte) string { return strings.ReplaceAll(string(b), "\n", "ERROR\r\n") }, "READY 3\r\n", `it says "READY 3"`},
		"a talker": {func([]byte) string { return "" }, "$POS,12,34\r\n$POS,12,35\r\n", `it says "$POS,12,34"`},
	} {
		_, err := drive.Acquaint(func(int) (drive.Wire, error) { return &other{answer: c.answer, unasked: c.unasked}, nil }, []int{115200}, func(string) {})
		var f *drive.Failure
		require.ErrorAs(t, err, &f, name)
		assert.Equal(t, drive.Foreign, f.End, name)
		assert.ErrorContains(t, err, c.want, name)
	}
}

// A board that is still moving is not asked for more, and one that cannot be opened says
// why; at a second speed that is no reason to give up.
func TestWhatStopsAnAcquaintance(t *testing.T) {
	runs := func(b []byte) string {
		if bytes.ContainsRune(b, '?') {
			return "<Run|MPos:1.000,2.000>\r\n"
		}
		return "ok\r\n"
	}
	_, err := drive.Acquaint(func(int) (drive.Wire, error) { return &other{answer: runs}, nil }, []int{115200}, func(string) {})
	assert.ErrorContains(t, err, `it is still at something, "Run"`)

	no := errors.New("no such port")
	_, err = drive.Acquaint(func(int) (drive.Wire, error) { return nil, no }, []int{115200}, func(string) {})
	assert.ErrorIs(t, err, no)
	first := true
	_, err = drive.Acquaint(func(int) (drive.Wire, error) {
		if first {
			first = false
			return &other{answer: func([]byte) string { return "" }}, nil
		}
		return nil, no
	}, []int{115200, 9600}, func(string) {})
	assert.ErrorContains(t, err, "tried were 115200 baud")

	again := &other{answer: func([]byte) string { return "" }}
	_, err = drive.Acquaint(func(int) (drive.Wire, error) { return &stops{again}, nil }, []int{115200}, func(string) {})
	assert.Error(t, err, "who is asked to stop does")

	plays := func([]byte) string {
		return string(stepplayer.Frame{Type: stepplayer.StatusNow, Payload: stepplayer.Status{State: stepplayer.Playing, Steps: []int32{1}}.Tell()}.Append(nil))
	}
	_, err = drive.Acquaint(func(int) (drive.Wire, error) { return &other{answer: plays}, nil }, []int{115200}, func(string) {})
	assert.ErrorContains(t, err, "it is still playing")
}

// stops is a world whose operator wants to stop.
type stops struct{ *other }

func (*stops) Wait(time.Time) drive.Event {
	return drive.Event{Kind: drive.Asked, Request: drive.Request{Kind: drive.Stop}}
}

// Whatever is at the port says, it is asked questions alone, and not for ever.
func TestNothingMovesWhateverAnswers(t *testing.T) {
	hello, ask := stepplayer.Frame{Type: stepplayer.Hello}.Append(nil), stepplayer.Frame{Type: stepplayer.Ask}.Append(nil)
	harmless := []string{"?", "\n", "$$\n", "$I\n", "M115\n", "M503\n", "M114\n", string(hello), string(ask)}
	words := []string{"ok\r\n", "error:8\r\n", "ALARM:1\r\n", "<Idle|MPos:0.000,0.000|Bf:15,127>\r\n", "<Run|WPos:1>\r\n", "$100=80\r\n", "$100=nan\r\n", "M92 X80 Y1\r\n",
		"[OPT:V,15,128]\r\n", "[AXS:2:XY]\r\n", "start\r\n", "\x80\x81", "", "echo: busy\r\n",
		string(stepplayer.Frame{Type: stepplayer.HelloAnswer, Payload: stepplayer.Player{Version: 1, Axes: 2, Capacity: 300, Shortest: 50000, Name: "b"}.Tell()}.Append(nil)),
		string(stepplayer.Frame{Type: stepplayer.Refused, Payload: []byte{4, 0, 0}}.Append(nil))}
	many.Check(t, 100, func(t *rapid.T) {
		said := rapid.OneOf(rapid.SampledFrom(words), rapid.StringN(0, 8, 30))
		o := &other{unasked: said.Draw(t, "unasked")}
		o.answer = func(b []byte) string {
			for rest := string(b); rest != ""; {
				i := slices.IndexFunc(harmless, func(h string) bool { return strings.HasPrefix(rest, h) })
				if i < 0 {
					t.Fatalf("%q was sent", b)
				}
				rest = rest[len(harmless[i]):]
			}
			return said.Draw(t, "answer") + said.Draw(t, "more")
		}
		began := o.now
		b, err := drive.Acquaint(func(int) (drive.Wire, error) { return o, nil }, []int{115200, 9600}, func(string) {})
		if lasted := o.now.Sub(began); lasted > 4*time.Minute {
			t.Fatalf("it took %v", lasted)
		}
		if err != nil {
			return
		}
		if _, _, err := rig.Decode("f", rigfile.File(b)); err != nil {
			t.Fatal(err)
		}
	})
}
