// Package guide is the guide for someone on a set: chapters, which the help command shows
// in a terminal, the page in a browser, and man as pages of section 7.
//
// A chapter is written in Markdown, in the folder chapters. It says what to type, what is
// then seen, and what to do about it. What is indented in it is typed, a fenced block of
// the language sees is part of what the command before it prints (a line that ends in dots
// goes on), one of toml belongs into a shot, rig or sequence file, and one named drawing is
// shown as it is; tests run, look for
// and decode all of them. The test of this package parses the chapters and makes the
// folder made of them (go test ./cmd/internal/guide -update), which is what the program
// carries: a parser in it would cost every command a quarter of its start.
package guide

import (
	"embed"
	"encoding/json"
	"io"
	"path"
	"slices"
	"strings"
)

//go:embed made
var files embed.FS

// Chapter is one chapter.
type Chapter struct {
	Name  string   // as it is asked for
	Short string   // a few words for lists
	About []string // the commands that it tells of
}

// chapters are in the order in which somebody who is new reads them. No chapter has the
// name of a command: "help cues" is the help of that one.
var chapters = []Chapter{
	{"first-loop", "from nothing to a loop that holds, and the paper for the day", []string{
		"new", "plan", "make", "plot", "sheet", "export",
	}},
	{"bring-up", "from a box of parts to a rig that is measured and trusted", []string{"connect", "jog"}},
	{"rig", "the rig file: what your machine can do, and its motors", []string{"ports"}},
	{"moves", "what an axis can do, keys and passes among it", nil},
	{"turntable", "turns that close, and display stands that turn by themselves", []string{"spin"}},
	{"picture", "camera and scene: how it will look before anything is built", []string{
		"preview", "above", "fit",
	}},
	{"set-up", "what the shots of a day have in common, and the shelf it is taken from", nil},
	{"hands", "cues: what a hand drops, pours or strikes, on time; focus pulled by hand", []string{"cues"}},
	{"browser", "the page on which a loop is designed by hand and eye", []string{"page"}},
	{"driving", "running takes, stopping them, and what holds the rig", []string{"drive"}},
	{"one-by-one", "time-lapse and animation: the rig rests for each frame, and goes on after a power cut", nil},
	{"on-time", "what your controller makes of a move, and what is promised", nil},
	{"filmed", "what was filmed: is it the plan, and where does it loop", []string{"footage"}},
	{"edit", "which frames to keep, and what to hand on", []string{"takes"}},
	{"clip", "several shots as one clip, cut to the beat, and the plan of the day", []string{"sequence"}},
	{"smoother", "what swings on after a move, and the softest laws", []string{"shake", "soften"}},
	{"not-ready", "when it will not hold: what is said, and what to do", []string{"reach"}},
}

// Chapters returns all chapters in the order to read them in.
func Chapters() []Chapter { return slices.Clone(chapters) }

// Find returns the chapter of a name, or of a title whose words are joined by hyphens.
func Find(name string) (Chapter, bool) {
	return first(func(c Chapter) bool { return c.Name == name || c.slug() == name })
}

// slug is the title as a name.
func (c Chapter) slug() string { return strings.ToLower(strings.ReplaceAll(c.Title(), " ", "-")) }

func first(is func(Chapter) bool) (Chapter, bool) {
	i := slices.IndexFunc(chapters, is)
	if i < 0 {
		return Chapter{}, false
	}
	return chapters[i], true
}

// On returns the chapter that tells of a command.
func On(command string) (Chapter, bool) {
	return first(func(c Chapter) bool { return slices.Contains(c.About, command) })
}

// content is a chapter as it was parsed.
type content struct {
	Title string `json:"title"`
	Parts []part `json:"parts"`
	HTML  string `json:"html"`
}

// content reads what the chapter holds.
func (c Chapter) content() (out content) {
	text, err := files.ReadFile(path.Join("made", c.Name+".json"))
	if err == nil {
		err = json.Unmarshal(text, &out)
	}
	if err != nil {
		panic("guide: " + err.Error()) // a test reads every one
	}
	return out
}

// Title returns the heading of the chapter.
func (c Chapter) Title() string { return c.content().Title }

// HTML writes the chapter as what stands inside a page. Links lead to chapters beside it.
// The error is the writer's.
func (c Chapter) HTML(w io.Writer) error {
	_, err := io.WriteString(w, c.content().HTML)
	return err
}
