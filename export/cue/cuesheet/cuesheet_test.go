package cuesheet_test

import (
	"bytes"
	"io"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/cue/cuesheet"
	"seamrail/motion/cue"
	"seamrail/motion/plan/sample"
)

func written(t testing.TB, take cue.Take) string {
	var out bytes.Buffer
	require.NoError(t, cuesheet.Write(&out, take))
	return out.String()
}

func TestSheet(t *testing.T) {
	take := sample.Cued(t, sample.TwoHands, 3)
	take.Sheet = take.WithHabits(map[string]cue.Habit{"left": cue.HabitOf([]float64{-0.04, -0.08})})
	sample.Golden(t, "sheet.txt", written(t, take))
}

func TestNoLineIsTooLong(t *testing.T) {
	for _, l := range strings.Split(written(t, sample.Cued(t, sample.TwoHands, 500)), "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(l), 80, l)
	}
}

func TestALongListIsCutAndSaysSo(t *testing.T) {
	text := written(t, sample.Cued(t, sample.TwoHands, 500))
	assert.Contains(t, text, "  and so on: the first 200 are listed\n")
	assert.NotContains(t, text, "round 201 ")
}

func TestCautionsAreSaid(t *testing.T) {
	text := written(t, sample.Cued(t, "[[cue]]\nname = \"a\"\nat = \"60 frames\"\nrounds = 9\n", 3))
	assert.Contains(t, text, "a is cued in round 9, and the take has 3")
}

func TestWriteErrors(t *testing.T) {
	take := sample.Cued(t, sample.TwoHands, 3)
	sample.Fails(t, len(written(t, take)), func(w io.Writer) error { return cuesheet.Write(w, take) })
}
