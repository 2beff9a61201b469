package sequence_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/edit/sequence"
)

// At 100 a minute and 24 frames a second a beat is 14.4 frames: cuts after 1, 2, 3 ... beats
// are on frames 14, 29, 43, 58, 72, and lengths of a beat rounded by themselves would be
// two frames behind by the fifth.
func TestCutsOnTheBeat(t *testing.T) {
	beat := entry("a", `length = "1 beat"`)
	c := joined(t, "[music]\ntempo = 100\n"+strings.Repeat(beat, 5), map[string]string{"a": seen})
	var cuts []int64
	for _, p := range c.Pieces {
		cuts = append(cuts, p.Start+p.Frames)
	}
	assert.Equal(t, []int64{14, 29, 43, 58, 72}, cuts)
	require.Len(t, c.Music.Spots, 5)
	assert.Equal(t, "3", c.Music.Spots[4].At.String())
	assert.Equal(t, "shot[5].length", c.Music.Spots[4].Path)
	assert.Equal(t, "0", c.Music.Spots[4].Late().String())
	assert.Equal(t, "-1/60", c.Music.Spots[0].Late().String())
}

func TestCutsWhereTheMusicSays(t *testing.T) {
	c := joined(t, "playback = \"24\"\n[music]\ntempo = 120\nfirst = \"0.26 s\"\nbar = 4\n"+
		entry("a", `until = "beat 5"`)+entry("a")+entry("a", `until = "bar 4"`, `from = "3 frames"`)+entry("a", `until = "9.99 s"`),
		map[string]string{"a": seen})
	var got [][3]int64
	for _, p := range c.Pieces {
		got = append(got, [3]int64{p.Start, p.From, p.Frames})
	}
	// Beat 5 is at 2.26 s, frame 54.24; then a loop of 48 frames; bar 4 is beat 13, at
	// 6.26 s, frame 150.24; 9.99 s are 239.76 frames.
	assert.Equal(t, [][3]int64{{0, 0, 54}, {54, 0, 48}, {102, 3, 48}, {150, 0, 90}}, got)
	assert.True(t, c.Pieces[3].Rounded)
}

// However many shots of so many beats there are, no cut is off by more than half a frame.
func TestCutsDoNotDrift(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tempo := rapid.Int64Range(40, 240).Draw(t, "tempo")
		text := fmt.Sprintf("[music]\ntempo = %d\n", tempo)
		var beats []int64
		for range rapid.IntRange(1, 30).Draw(t, "shots") {
			n := rapid.Int64Range(1, 9).Draw(t, "beats")
			beats = append(beats, n)
			text += entry("a", fmt.Sprintf("length = \"%d beats\"", n))
		}
		c := joined(t, text, map[string]string{"a": across})
		sum := exact.Rat{}
		for i, p := range c.Pieces {
			sum = sum.Add(exact.New(beats[i]*60*24, tempo))
			assert.False(t, exact.New(1, 2).Less(exact.Int(p.Start+p.Frames).Sub(sum).Abs()))
		}
	})
}

func TestCutsThatCannotBe(t *testing.T) {
	const song = "[music]\ntempo = 120\nbar = 4\n"
	for text, says := range map[string]string{
		song + entry("a", `until = "beat 9"`) + entry("a", `until = "beat 9"`): "clip.toml:9:9: shot[2].until \"beat 9\" must be after the shot begins, at frame 96 of the clip",
		entry("a") + entry("a", `until = "2 s"`):                               "shot[2].until \"2 s\" must be after the shot begins, at frame 48",
	} {
		_, err := join(t, text, map[string]string{"a": seen})
		require.Error(t, err, text)
		assert.Contains(t, err.Error(), says)
	}
	for text, says := range map[string]string{
		entry("a", `until = "beat 9"`):                                    "shot[1].until \"beat 9\" takes a tempo",
		entry("a", `length = "9 beats"`):                                  "shot[1].length \"9 beats\" takes a tempo",
		song + entry("a", `until = "beat 0"`):                             "must name a beat from 1",
		song + entry("a", `length = "beat 9"`):                            "does not begin with a number",
		song + entry("a", `until = "0 s"`):                                "must be above 0",
		song + entry("a", `until = "beat 9"`, `length = "2 s"`):           "is given, and so is length or rounds",
		song + entry("a", `until = "marker out"`):                         "takes a list of markers",
		"[music]\nmarkers = \"song.csv\"\nfirst = \"1 s\"\n" + entry("a"): "first \"1 s\" takes a tempo",
	} {
		_, err := sequence.Decode("clip.toml", []byte(text), nil)
		require.Error(t, err, text)
		assert.Contains(t, err.Error(), says, text)
	}
}

// Of a clip whose rate only its shots know, the list is read as they are joined.
func TestMarkersOfAClip(t *testing.T) {
	text := "[music]\nmarkers = \"song.csv\"\n" + entry("a", `until = "marker turn"`) + entry("a", `until = "marker out"`)
	for _, head := range []string{"", "playback = \"24\"\n"} {
		s, err := sequence.Decode("clip.toml", []byte(head+text), nil, func(string) ([]byte, error) { return []byte("turn,30 frames\nout,60 frames\n"), nil })
		require.NoError(t, err)
		c, err := sequence.Join(s, []sequence.Planned{planOf(t, seen), planOf(t, seen)})
		require.NoError(t, err)
		assert.EqualValues(t, 60, c.Frames)
		assert.EqualValues(t, 30, c.Pieces[0].Frames)
	}
	s, err := sequence.Decode("clip.toml", []byte(text), nil, func(string) ([]byte, error) { return []byte("turn,x\n"), nil })
	require.NoError(t, err, "nothing is known of its frames yet")
	_, err = sequence.Join(s, []sequence.Planned{planOf(t, seen), planOf(t, seen)})
	assert.ErrorContains(t, err, "song.csv:1:6: marker \"turn\"")
}
