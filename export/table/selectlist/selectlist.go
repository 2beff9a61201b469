// Package selectlist writes the table of kept takes: one row a take with the frames
// of it that are kept, as comma-separated values (RFC 4180) under "#" lines.
package selectlist

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamrail/export/header"
	"seamrail/motion/base/exact"
	"seamrail/motion/cue/syncmark"
	"seamrail/motion/edit/selects"
)

// percentDecimals is how many decimals a speed in percent has, which an edit
// may want where it takes no ratio: 1e-6 % of a loop of 10 000 frames is a
// ten-thousandth of a frame.
const percentDecimals = 6

var columns = []string{
	"take", "rounds", "round", "first", "last", "frames", "seam", "before", "after", "recorded",
	"retime", "percent", "timeline_frames", "timecode_first", "timecode_last", "notes", "clip",
}

var words = []string{
	"take: its number in the log; empty for the take that the plan foresees",
	"rounds, round: how many it has, and the one that is kept, from 1",
	"first, last: captured frames that are kept, both included, from 0 where the take begins to move",
	"seam: the first frame after them; it would show the first of them once more, or the way back to it",
	"before, after: frames beside them that may serve as handles",
	"recorded: frames of the whole take",
	"retime: speed of the picture over real speed, exactly; percent: the same, rounded",
	"timeline_frames: what it fills on the timeline; timecode_first, timecode_last: their labels",
	"clip: the camera's file name, or its card and clip number, where the log has it",
}

// syncColumns stand at the end where the shot has a sync mark.
var syncColumns = []string{"frame_0", "sync_first", "sync_give_or_take"}

// synced says what those are.
func synced(m *syncmark.Mark) []string {
	return []string{
		"sync mark: " + header.Clean(m.What()),
		"frame_0, sync_first: captured frames from " + m.First() + ", itself 0, to frame 0 and to the first that is kept; from the beginning of the recording where that is known",
		"sync_give_or_take: how far sync_first may be out either way, in frames; empty where the log says nothing of a mark",
	}
}

// filmColumns stand at the end where the file of a take was looked through.
var filmColumns = []string{
	"film", "film_rate", "film_frames", "film_frame_0", "film_frame_0_uncertainty", "film_first", "film_last", "film_seam",
	"film_timecode_first", "film_timecode_last", "film_timecode_seam", "film_rounded", "film_verdict", "film_apart_px", "film_hands",
}

// filmWords say what those are.
var filmWords = []string{
	"film: the camera's file that was looked through; film_rate: its frames a second, exactly; film_frames: how many it has",
	"film_frame_0: at which of them the plan begins, with its standard uncertainty; empty where that is not known",
	"film_first, film_last, film_seam: frames of that file, from 0: cut from film_first to film_last, both included; film_seam is not shown",
	"film_timecode_...: the same by the file's own timecode, at film_rate; a semicolon is drop-frame; empty where the file has none",
	"film_rounded: whole frames are the nearest; by how many frames film_first is later than where the round begins",
	"film_verdict, film_apart_px: what the film is beside its plan, and the most that they differ by; film_hands: how each hand was in the round that is kept",
}

// inFilms tells whether the file of any take was looked through.
func inFilms(takes selects.Takes) bool {
	return slices.ContainsFunc(takes.Kept, func(s selects.Select) bool { return s.Film != nil })
}

// filmOf are the columns of the file of a take.
func filmOf(takes selects.Takes, s selects.Select) []string {
	out := make([]string, len(filmColumns))
	f := s.Film
	if f == nil {
		return out
	}
	out[0], out[2], out[12] = header.Clean(f.File), strconv.FormatInt(f.Frames, 10), header.Clean(f.Verdict)
	if f.Rate.Sign() > 0 {
		out[1] = f.Rate.String()
	}
	if f.Apart > 0 {
		out[13] = strconv.FormatFloat(f.Apart, 'f', 2, 64)
	}
	out[14] = header.Clean(strings.Join(f.Hands, "; "))
	if !f.Known() {
		return out
	}
	out[3], out[4] = thousandths(f.Zero), thousandths(max(f.Sure, thousandth))
	for n, frame := range []int64{f.In, f.Out - 1, f.Out} {
		out[5+n], out[8+n] = strconv.FormatInt(frame, 10), f.Label(frame)
	}
	out[11] = thousandths(f.Rounded(takes.Plan.RoundFrames()))
	return out
}

// thousandth is what frames are told to in the table.
const thousandth = 0.001

func thousandths(v float64) string {
	return strconv.FormatFloat(math.Round(v/thousandth)*thousandth+0, 'f', 3, 64)
}

// Write writes the table. The error is the writer's, wrapped.
func Write(w io.Writer, head header.Head, takes selects.Takes) error {
	lines := append(head.Lines("kept takes, one row a take"), words...)
	if takes.Plan.ByFrame != nil {
		lines = append(lines, "frame by frame: stills, a file a frame; brought in at the rate of the timeline they need no retime")
	}
	if takes.Mark != nil {
		lines = append(lines, synced(takes.Mark)...)
	}
	films := inFilms(takes)
	if films {
		lines = append(lines, filmWords...)
	}
	for _, l := range takes.LeftOut {
		lines = append(lines, fmt.Sprintf("left out: take %d, for %s", l.Take, header.Clean(l.Why)))
	}
	if takes.Unread > 0 {
		lines = append(lines, fmt.Sprintf("lines of the log that cannot be read: %d; which takes are kept may have been said there", takes.Unread))
	}
	buf := bytes.NewBuffer(header.Write(nil, "# ", lines))
	rows := csv.NewWriter(buf)
	// A bytes.Buffer takes everything.
	heads := slices.Clone(columns)
	if takes.Mark != nil {
		heads = append(heads, syncColumns...)
	}
	if films {
		heads = append(heads, filmColumns...)
	}
	_ = rows.Write(heads)
	for _, s := range takes.Kept {
		cells := row(takes, s)
		if films {
			cells = append(cells, filmOf(takes, s)...)
		}
		_ = rows.Write(cells)
	}
	rows.Flush()
	if _, err := w.Write(buf.Bytes()); err != nil {
		return fmt.Errorf("writing the kept takes: %w", err)
	}
	return nil
}

func row(takes selects.Takes, s selects.Select) []string {
	loop := takes.Plan.Loop
	number := ""
	if s.Take > 0 {
		number = strconv.Itoa(s.Take)
	}
	out := []string{number}
	for _, n := range []int64{s.Rounds, s.Round + 1, s.First, s.Last, s.Frames(), s.Seam(), s.Before, s.After, s.Recorded} {
		out = append(out, strconv.FormatInt(n, 10))
	}
	first, last := takes.Labels()
	retime := loop.Clock.Retime
	if takes.Plan.ByFrame != nil {
		retime = loop.Clock.Stills().Retime
	}
	percent := retime.Mul(exact.Int(100)).Decimal(percentDecimals)
	out = append(out, retime.String(), percent, strconv.FormatInt(loop.Screen, 10), first, last, strings.Join(header.CleanAll(s.Notes), "; "), header.Clean(s.Clip))
	switch f := s.Sync; {
	case takes.Mark == nil:
	case f == nil:
		out = append(out, "", "", "")
	default:
		out = append(out, strconv.FormatFloat(f.Frame, 'f', 1, 64), strconv.FormatInt(f.Kept, 10), strconv.FormatFloat(f.By, 'f', 1, 64))
	}
	return out
}
