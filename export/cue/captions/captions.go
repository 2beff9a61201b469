// Package captions writes the cues of a take as WebVTT (W3C, WebVTT: The Web
// Video Text Tracks Format), so that any player shows them, by itself or beside
// the click track.
package captions

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"seamrail/export/header"
	"seamrail/motion/base/exact"
	"seamrail/motion/cue"
)

// showNow is how long a "now" stays to be seen, in seconds.
var showNow = exact.New(1, 2)

// Write writes the captions of a take: a caption a beat, that stays until the
// next beat of its count, and a "now" that stays half a second. Time 0 is the
// first beat of the count-in, and times are to the nearest millisecond. The
// lines of about go into a note at the top. The error is the writer's.
func Write(w io.Writer, t cue.Take, about []string) error {
	out := bufio.NewWriterSize(w, 1<<16)
	_, _ = out.WriteString("WEBVTT\n\n" + note(about)) // a bufio.Writer keeps its first error for Flush
	for b := range t.Beats() {
		if _, err := out.WriteString(caption(t, b)); err != nil {
			break
		}
	}
	if err := out.Flush(); err != nil {
		return fmt.Errorf("writing the captions: %w", err)
	}
	return nil
}

// note is a comment block. An arrow or an empty line would end it.
func note(lines []string) string {
	text := "NOTE\n"
	for _, l := range lines {
		if l = strings.TrimSpace(strings.ReplaceAll(header.Clean(l), "-->", "->")); l != "" {
			text += l + "\n"
		}
	}
	return text + "\n"
}

func caption(t cue.Take, b cue.Beat) string {
	return fmt.Sprintf("%s --> %s\n%s\n\n", stamp(b.At), stamp(b.At.Add(shown(t, b))), words(t, b))
}

// shown is how long a caption stays.
func shown(t cue.Take, b cue.Beat) exact.Rat {
	switch {
	case b.Left == 0 || b.Cue == cue.SyncTone:
		return showNow
	case b.Cue == cue.CountIn:
		return exact.Int(1)
	}
	return t.Cues[b.Cue].Beat
}

func words(t cue.Take, b cue.Beat) string {
	count := fmt.Sprint(b.Left)
	if b.Cue == cue.CountIn {
		if b.Left == 0 {
			count = "it moves"
		}
		return "Count-in: " + count
	}
	if b.Cue == cue.SyncTone {
		return "Sync mark: " + escaped(t.Sync.Name)
	}
	if b.Left == 0 {
		count = "<b>NOW</b>"
	}
	c := t.Cues[b.Cue]
	return fmt.Sprintf("%s, %s, round %d: %s", escaped(c.Name), escaped(cue.Called(c.Hand)), b.Round+1, count)
}

// escaped makes text safe as the text of a caption.
func escaped(s string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(strings.TrimSpace(header.Clean(s)))
}

// stamp is a time in seconds as hours, minutes, seconds and milliseconds.
func stamp(t exact.Rat) string {
	ms := t.Mul(exact.Int(1000)).Round().Whole()
	return fmt.Sprintf("%02d:%02d:%02d.%03d", ms/3_600_000, ms/60_000%60, ms/1000%60, ms%1000)
}
