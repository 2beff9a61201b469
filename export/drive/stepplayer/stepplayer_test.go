package stepplayer_test

import (
	"bytes"
	"encoding/hex"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/drive/stepplayer"
)

// The check value of CRC-16/IBM-3740 is its value of the nine digits.
func TestCheckValue(t *testing.T) {
	require.Equal(t, uint16(0x29b1), stepplayer.Check([]byte("123456789")))
	require.Equal(t, uint16(0xffff), stepplayer.Check(nil), "the register at first")
}

// vectors reads the frames printed in PROTOCOL.md.
func vectors(t *testing.T) map[string][]byte {
	t.Helper()
	page, err := os.ReadFile("PROTOCOL.md")
	require.NoError(t, err)
	parts := strings.Split(string(page), "```")
	require.Len(t, parts, 3, "one fenced block, the vectors")
	out := map[string][]byte{}
	for line := range strings.Lines(strings.TrimSpace(parts[1])) {
		name, digits, ok := strings.Cut(line, " ")
		require.True(t, ok, line)
		out[name], err = hex.DecodeString(strings.Join(strings.Fields(digits), ""))
		require.NoError(t, err, line)
	}
	return out
}

// What the page prints is what the package makes of what the page says is in it.
func TestPageVectors(t *testing.T) {
	page := vectors(t)
	for name, f := range map[string]stepplayer.Frame{
		"hello":        {Type: stepplayer.Hello},
		"begin":        {Type: stepplayer.Begin, Payload: stepplayer.BeginPayload(1_000_000, 2)},
		"place":        {Seq: 1, Type: stepplayer.Place, Payload: stepplayer.AppendPlaces(nil, []int32{3200, -7})},
		"rows":         {Seq: 2, Type: stepplayer.Rows, Payload: []byte{3, 255, 4, 255, 128, 127}},
		"start-inside": {Seq: 126, Type: stepplayer.Rows, Payload: []byte{126, 126}},
		"go":           {Seq: 3, Type: stepplayer.Go},
		"end":          {Seq: 255, Type: stepplayer.End},
		"status?":      {Type: stepplayer.Ask},
		"hold":         {Type: stepplayer.Hold},
		"resume":       {Type: stepplayer.Resume},
		"abort":        {Type: stepplayer.Abort},
		"hello-answer": {Type: stepplayer.HelloAnswer, Payload: stepplayer.Player{Version: 1, Axes: 2, Capacity: 1024, Shortest: 50_000, Name: "bench"}.Tell()},
		"hello-2":      {Type: stepplayer.HelloAnswer, Payload: stepplayer.Player{Version: 2, Axes: 2, Capacity: 1024, Shortest: 50_000, Outputs: 3, Name: "bench"}.Tell()},
		"outputs":      {Seq: 5, Type: stepplayer.Switch, Payload: stepplayer.SwitchPayload(5, 0)},
		"outputs-200":  {Seq: 5, Type: stepplayer.Switch, Payload: stepplayer.SwitchPayload(1, 200)},
		"ack":          {Seq: 4, Type: stepplayer.Ack, Payload: []byte{0xfd, 0x03}},
		"refused":      {Seq: 4, Type: stepplayer.Refused, Payload: []byte{1, 0xe8, 0x03}},
		"status": {Seq: 4, Type: stepplayer.StatusNow, Payload: stepplayer.Status{
			State: stepplayer.Playing, Room: 126, Played: 70_000, Steps: []int32{3205, -9}}.Tell()},
	} {
		require.Equal(t, hex.EncodeToString(page[name]), hex.EncodeToString(f.Append(nil)), name)
		delete(page, name)
	}
	require.Empty(t, page, "vectors that nothing checks")
}

func TestPayloadsReadBack(t *testing.T) {
	p := stepplayer.Player{Version: 1, Axes: 2, Capacity: 1024, Shortest: 50_000, Name: "bench"}
	back, err := stepplayer.ReadPlayer(p.Tell())
	require.NoError(t, err)
	require.Equal(t, p, back)
	p.Version, p.Outputs = stepplayer.VersionOutputs, 3
	back, err = stepplayer.ReadPlayer(p.Tell())
	require.NoError(t, err)
	require.Equal(t, p, back)
	_, err = stepplayer.ReadPlayer(p.Tell()[:8])
	require.ErrorIs(t, err, stepplayer.ErrShort)
	s := stepplayer.Status{State: stepplayer.Starved, Room: 7, Played: 1 << 31, Steps: []int32{-1, 1 << 30}}
	status, err := stepplayer.ReadStatus(s.Tell())
	require.NoError(t, err)
	require.Equal(t, s, status)
	room, err := stepplayer.ReadAck([]byte{0xfd, 3})
	require.NoError(t, err)
	require.Equal(t, 1021, room)
	reason, room, err := stepplayer.ReadRefused([]byte{2, 1, 0})
	require.NoError(t, err)
	require.Equal(t, stepplayer.NoRoom, reason)
	require.Equal(t, 1, room)
}

func TestShortPayloads(t *testing.T) {
	for n := range 8 {
		_, err := stepplayer.ReadPlayer(make([]byte, n))
		require.ErrorIs(t, err, stepplayer.ErrShort)
	}
	for _, n := range []int{0, 6, 8, 10} {
		_, err := stepplayer.ReadStatus(make([]byte, n))
		require.ErrorIs(t, err, stepplayer.ErrShort)
	}
	_, err := stepplayer.ReadAck([]byte{1})
	require.ErrorIs(t, err, stepplayer.ErrShort)
	_, _, err = stepplayer.ReadRefused([]byte{1, 2})
	require.ErrorIs(t, err, stepplayer.ErrShort)
}

func TestWords(t *testing.T) {
	require.Equal(t, "alarm", stepplayer.Alarm.String())
	require.Equal(t, "state 9", stepplayer.State(9).String())
	require.Equal(t, "in alarm", stepplayer.InAlarm.String())
	require.Equal(t, "reason 77", stepplayer.Reason(77).String())
}

func TestTooLongAPayloadPanics(t *testing.T) {
	require.Panics(t, func() {
		stepplayer.Frame{Type: stepplayer.Rows, Payload: make([]byte, stepplayer.MaxPayload+1)}.Append(nil)
	})
}

func frames(t *rapid.T) stepplayer.Frame {
	return stepplayer.Frame{
		Seq: rapid.Byte().Draw(t, "seq"), Type: stepplayer.Type(rapid.Byte().Draw(t, "type")),
		// Start bytes within are what a reader could stumble over.
		Payload: rapid.SliceOfN(rapid.OneOf(rapid.Byte(), rapid.Just(byte(0x7e))), 0, stepplayer.MaxPayload).Draw(t, "payload"),
	}
}

// Frames come back whole and in order, however the wire cuts them up.
func TestFramesComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sent := rapid.SliceOfN(rapid.Custom(frames), 1, 6).Draw(t, "frames")
		var wire []byte
		for _, f := range sent {
			wire = f.Append(wire)
		}
		var r stepplayer.Reader
		var got []stepplayer.Frame
		for len(wire) > 0 {
			n := rapid.IntRange(1, len(wire)).Draw(t, "cut")
			r.Add(wire[:n])
			wire = wire[n:]
			for f, ok := r.Next(); ok; f, ok = r.Next() {
				got = append(got, f)
			}
		}
		require.Equal(t, len(sent), len(got))
		for i := range sent {
			require.Equal(t, sent[i].Type, got[i].Type)
			require.True(t, bytes.Equal(sent[i].Payload, got[i].Payload))
		}
		require.Zero(t, r.Dropped)
		require.False(t, r.Waiting())
	})
}

// A frame with one wrong bit never comes through as another frame, and the one
// after it always does, once the rest of a wrong length has been given up.
func TestOneWrongBit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bad := rapid.Custom(frames).Draw(t, "bad")
		good := rapid.Custom(frames).Draw(t, "good")
		wire := bad.Append(nil)
		bit := rapid.IntRange(0, len(wire)*8-1).Draw(t, "bit")
		wire[bit/8] ^= 1 << (bit % 8)
		wire = good.Append(wire)
		var r stepplayer.Reader
		r.Add(wire)
		var got []stepplayer.Frame
		for {
			f, ok := r.Next()
			if ok {
				got = append(got, f)
				continue
			}
			if !r.Waiting() {
				break
			}
			r.GiveUp()
		}
		require.NotEmpty(t, got)
		last := got[len(got)-1]
		require.Equal(t, good.Type, last.Type)
		require.True(t, bytes.Equal(good.Payload, last.Payload))
	})
}

// Whatever comes in, the reader drops it or gives frames that are sound.
func FuzzReader(f *testing.F) {
	f.Add([]byte{0x7e, 0, 0, 'H', 0x50, 5}, 3)
	f.Add(bytes.Repeat([]byte{0x7e}, 300), 1)
	f.Fuzz(func(t *testing.T, data []byte, cut int) {
		var r stepplayer.Reader
		cut = min(max(cut, 0), len(data))
		total := 0
		for _, part := range [][]byte{data[:cut], data[cut:]} {
			r.Add(part)
			for f, ok := r.Next(); ok; f, ok = r.Next() {
				again := f.Append(nil)
				require.True(t, bytes.Contains(data, again))
				total += len(again)
			}
		}
		require.LessOrEqual(t, total+r.Dropped, len(data))
	})
}

// BenchmarkReader reports frames of rows read a second.
func BenchmarkReader(b *testing.B) {
	wire := stepplayer.Frame{Type: stepplayer.Rows, Payload: make([]byte, 240)}.Append(nil)
	var r stepplayer.Reader
	for b.Loop() {
		r.Add(wire)
		if _, ok := r.Next(); !ok {
			b.Fatal("no frame")
		}
	}
	b.SetBytes(int64(len(wire)))
}
