package drive

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/drive/stepplayer"
	"seamrail/motion/base/exact"
	"seamrail/motion/spec/rig"
)

func TestRepliesAreTold(t *testing.T) {
	for text, want := range map[string]replyKind{
		"ok": answer, "OK": answer, "ok T:21.0": answer, " ok\t": answer, "okay then": talk,
		"error:22": refusal, "Error: checksum mismatch": refusal,
		"ALARM:1": alarm, "alarm: hard limit": alarm,
		"Bench 1.0 ready": greeting, "bench 1.0 ready": talk,
		"<Idle|MPos:0.000,0.000,0.000|Bf:15,128>": report, "<Idle>": report,
		"<>": garbage, "<Idle|MPos:0.000": garbage, "<Run|MPos:x,1>": garbage, "<Run|MPos:NaN,1>": garbage, "<Run|MPos:1e999>": garbage,
		"": blank, "   ": blank,
		"[MSG:Caution: Unlocked]": talk, "echo:busy: processing": talk, "$100=80.000": talk,
		"o\x80k": garbage, "ok\x00": garbage, "\xff\xfe": garbage,
	} {
		require.Equal(t, want, parse([]byte(text), "Bench").kind, "%q", text)
	}
	require.Equal(t, talk, parse([]byte("Bench 1.0"), "").kind, "a controller without a greeting")
}

func TestReports(t *testing.T) {
	r := parse([]byte("<Hold:1|WPos:1.500,-2.000,3.000|Bf:3,17|Pn:XY|FS:500,0>"), "")
	require.Equal(t, report, r.kind)
	require.Equal(t, status{state: "Hold", sub: "1", work: []float64{1.5, -2, 3}, blocks: 3, bytes: 17}, r.status)
	require.False(t, r.status.resting())
	for text, rests := range map[string]bool{"<Hold:0>": true, "<Hold>": true, "<Idle>": true, "<Alarm>": true, "<Run>": false, "<Jog>": false, "<Home>": false} {
		require.Equal(t, rests, parse([]byte(text), "").status.resting(), text)
	}
}

func TestColumns(t *testing.T) {
	axes := func(letters string) (out []rig.Axis) {
		for _, l := range letters {
			out = append(out, rig.Axis{Letter: string(l)})
		}
		return out
	}
	require.Equal(t, []int{0, 3}, columns(axes("XA"), 4), "X Y Z A")
	require.Equal(t, []int{0, 1}, columns(axes("XA"), 2), "as many as the rig has, in the order of letters")
	require.Equal(t, []int{1, 0}, columns(axes("AX"), 2))
	require.Equal(t, []int{0, 1}, columns(axes("XY"), 3))
	require.Nil(t, columns(axes("XA"), 3), "neither")
	require.Nil(t, columns(axes("X"), 0))
}

func TestSettingsInBothForms(t *testing.T) {
	s := settings{}
	for _, l := range []string{"$100=80.000", "$110 = 24000.0 (x max rate)", "echo:  M92 X80.00 Y10.5", "M203 X400.00", "$x=", "=1", "hello", ""} {
		s.hear(l)
	}
	require.Equal(t, settings{"$100": 80, "$110": 24000, "M92 X": 80, "M92 Y": 10.5, "M203 X": 400, "": 1}, s)
}

func TestSettingsHeldAgainstTheRig(t *testing.T) {
	a := rig.Axis{Name: "rail", StepsPerUnit: exactly80, Settings: rig.AxisSettings{
		Acceleration: 500, Speed: 200, StepsName: "M92 X", SpeedName: "M203 X", AccelerationName: "M201 X"}}
	require.Empty(t, settings{"M92 X": 80, "M203 X": 200, "M201 X": 500}.differences(a), "a second")
	require.Empty(t, settings{"M92 X": 80, "M203 X": 12000, "M201 X": 500}.differences(a), "a minute")
	require.Equal(t, []string{
		"axis rail: steps per mm: M92 X is 80.1 and the rig file says 80",
		"axis rail: speed, mm/min: M203 X is 199 and the rig file says 12000",
		"axis rail: acceleration, mm/s2: it does not print M201 X",
	}, settings{"M92 X": 80.1, "M203 X": 199}.differences(a))
	a.Settings.StepsName, a.Settings.SpeedName, a.Settings.AccelerationName = "", "", ""
	require.Empty(t, settings{}.differences(a), "nothing to compare")
}

// split gives data to a reader of lines in parts, and returns the lines.
func split(parts ...[]byte) []string {
	var l lines
	var out []string
	for _, p := range parts {
		l.add(p, func(line []byte) { out = append(out, string(line)) })
	}
	return out
}

func TestLines(t *testing.T) {
	require.Equal(t, []string{"ok", "error:1", "<Idle>"}, split([]byte("ok\r\n\r\nerr"), []byte("or:1\n<Idle>\rok")))
	long := split([]byte(strings.Repeat("x", 1000) + "\nok\n"))
	require.Len(t, long, 2)
	require.Equal(t, garbage, parse([]byte(long[0]), "").kind, "an endless line is no reply")
	require.Equal(t, "ok", long[1])
}

// However the wire cuts the bytes up, the lines are the same.
func TestLinesAnyCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		data := []byte(rapid.StringOf(rapid.SampledFrom([]rune("ok\r\n<>|:,1.é\x00"))).Draw(t, "data"))
		n := rapid.IntRange(0, len(data)).Draw(t, "cut")
		require.Equal(t, split(data), split(data[:n], data[n:]))
	})
}

// Nothing that comes in makes the reader panic, grow without bound or give a
// number that is none.
func FuzzReplies(f *testing.F) {
	f.Add([]byte("ok\r\nerror:9\nALARM:1\n<Run|MPos:1.0,2,3|WPos:1|Bf:15,128|FS:1,2>\n"), "Bench")
	f.Add([]byte("<Hold:0|MPos:,>\n$100=1e400\nM92 X Y\n"), "")
	f.Fuzz(func(t *testing.T, data []byte, greets string) {
		s := settings{}
		var l lines
		l.add(data, func(line []byte) {
			require.LessOrEqual(t, len(line), longestReply+1)
			r := parse(line, greets)
			s.hear(r.text)
			for _, at := range [][]float64{r.status.machine, r.status.work} {
				for _, x := range at {
					require.False(t, x-x != 0, "not finite")
				}
			}
		})
		require.LessOrEqual(t, len(l.held), longestReply)
	})
}

func TestRowsAreDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		speed := rapid.Float64Range(-100, 100).Draw(t, "steps per tick")
		r := newRows(1, 0.001, -1, func(sec float64, steps []int64) { steps[0] = nearestStep(sec*1000, speed) })
		sum, first := int64(0), r.now[0]
		for range 200 {
			row, err := r.row(nil)
			require.NoError(t, err)
			sum += int64(int8(row[0]))
		}
		require.Equal(t, r.now[0], first+sum)
		require.Equal(t, nearestStep(200, speed), r.now[0])
	})
	r := newRows(1, 0.001, -1, func(sec float64, steps []int64) { steps[0] = int64(sec * 200_000) })
	_, err := r.row(nil)
	require.ErrorContains(t, err, "200 steps in a tick")
	require.EqualValues(t, 3, ticksOf(0.003, 0.001), "a whole number of ticks stays one")
	require.EqualValues(t, 4, ticksOf(0.0030001, 0.001))
}

var exactly80 = exact.Int(80)

func playerFrame(t, seq byte, payload []byte) stepplayer.Frame {
	return stepplayer.Frame{Seq: seq, Type: stepplayer.Type(t), Payload: payload}
}

// Whatever frames a player sends, the engine does not panic.
func FuzzPlayerFrames(f *testing.F) {
	f.Add([]byte{'a', 1, 2, 3, 'n', 4, 5, 6, 7, 's', 0})
	f.Add([]byte("a\x01\x02\xea\xe8\xa84\n;\x00\x03\x01\x04d\x00\x00\x85sa\x01\x02\xea\xe8\xa84\n\x00\xea\xe8\xbe4\n;I")) // plays before it has greeted
	f.Fuzz(func(t *testing.T, data []byte) {
		p := &player{engine: &engine{job: &job{}}}
		for len(data) > 2 {
			n := min(int(data[1])%20, len(data)-2)
			_ = p.frame(playerFrame(data[0], data[1], data[2:2+n]))
			data = data[2+n:]
		}
	})
}

// BenchmarkReplies reports how fast answers and reports are read.
func BenchmarkReplies(b *testing.B) {
	data := []byte("ok\r\nok\r\n<Run|MPos:123.456,0.000,0.000,60.000|Bf:3,17|FS:500,0>\r\nok\r\n")
	var l lines
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		l.add(data, func(line []byte) { _ = parse(line, "Bench") })
	}
}
