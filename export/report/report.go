// Package report is the model of what is told to people and to other programs: a
// Report is sections of fields, points, tables, gauges and figures, which Text and
// HTML write, each in the one way; JSON writes the facts behind them. The packages
// below it say what a report holds and never how it looks.
package report

import (
	"seamrail/motion/base/source"
	"seamrail/motion/plan/judge"
)

// Content is what there is to tell of something.
type Content interface {
	Report() Report // for people
	Facts() any     // for programs: a value whose type has tags for JSON
}

// Brief is content of which there is much: its short answer is told unless more is
// asked for.
type Brief interface {
	Content
	Brief() Report // headline, answer, what does not hold and what is in doubt
}

// Report is a report for people. Whatever its texts hold from a file, the writers
// make it harmless.
type Report struct {
	Title    string
	Subtitle string
	Sections []Section // those without blocks are not shown
}

// Section is a part of a report. One without a title is only set apart.
type Section struct {
	Name   string // the word by which it is asked for; "" for the headline
	Group  string // the word for all of its kind, such as every axis; mostly ""
	Title  string
	Blocks []Block
}

// Block is a Headline, Field, Gauge, Bullet, Table, Note or Figure.
type Block interface{ kind() string }

// Tone is how a text is meant, which every writer shows in its own way.
type Tone int

// The tones.
const (
	Plain Tone = iota
	Dim        // beside the matter
	Strong
	Good
	Fair  // will do, or is to be minded
	Poor  // will not do
	Grave // must not be
)

// Headline is the verdict on all of it.
type Headline struct {
	Tone         Tone
	Stamp, Words string
}

// Field is a text under a label; one without a label belongs to the field above.
type Field struct {
	Label, Text string
	Tone        Tone
	Mark        string // a character in the margin
	Code        bool   // to be typed as it stands: a line that is never folded
}

// Gauge is a value beside its limit.
type Gauge struct {
	Label, Value string
	Share        float64 // of the limit
	Tone         Tone
	Told         string // the share in words: "23 % of"
	Limit, When  string
}

// Bullet is a point of a list.
type Bullet struct {
	Tone Tone
	Mark string
	Text string
}

// Note is what is said at the foot of something.
type Note struct{ Text string }

// Figure is a picture or a sound that lies beside the report.
type Figure struct {
	File string
	Alt  string // what there is to see or to hear
}

func (Headline) kind() string { return "headline" }
func (Field) kind() string    { return "field" }
func (Gauge) kind() string    { return "gauge" }
func (Bullet) kind() string   { return "bullet" }
func (Table) kind() string    { return "table" }
func (Note) kind() string     { return "note" }
func (Figure) kind() string   { return "figure" }

// Section begins a section, which what is added afterwards belongs to. It is asked for
// by its title, in a word.
func (r *Report) Section(title string) { r.Named(Word(title), title) }

// Named begins a section that is asked for by another word than its title.
func (r *Report) Named(name, title string) {
	r.Sections = append(r.Sections, Section{Name: name, Title: title})
}

// Member begins a section that is one of a kind, such as that of an axis.
func (r *Report) Member(name, group, title string) {
	r.Sections = append(r.Sections, Section{Name: Word(name), Group: group, Title: title})
}

// Add adds blocks to the last section.
func (r *Report) Add(blocks ...Block) {
	last := &r.Sections[len(r.Sections)-1]
	last.Blocks = append(last.Blocks, blocks...)
}

// Headline begins the report with its verdict.
func (r *Report) Headline(tone Tone, stamp, words string) {
	r.Section("")
	r.Add(Headline{tone, stamp, words})
}

// Field adds a field, unless there is nothing to say.
func (r *Report) Field(label, text string) { r.Toned(Plain, label, text) }

// Toned is Field in a tone.
func (r *Report) Toned(tone Tone, label, text string) {
	if text != "" {
		r.Add(Field{Label: label, Text: text, Tone: tone})
	}
}

// Fields adds a field for each of some texts, with the label at the first.
func (r *Report) Fields(label string, texts []string) {
	for _, text := range texts {
		r.Field(label, text)
		label = ""
	}
}

// Bullets adds a point for each of some texts.
func (r *Report) Bullets(tone Tone, mark string, texts ...string) {
	for _, text := range texts {
		r.Add(Bullet{tone, mark, text})
	}
}

// Defaults tells what was filled in, in a section of its own.
func (r *Report) Defaults(filled []source.Default) {
	r.Named("defaults", "FILLED IN FOR YOU")
	for _, d := range filled {
		text := d.Key + " = " + d.Value
		if d.Why != "" {
			text += ": " + d.Why
		}
		r.Bullets(Dim, "-", text)
	}
}

// JudgeTone is the tone of a verdict on a job.
func JudgeTone(t judge.Tone) Tone {
	return map[judge.Tone]Tone{judge.Clear: Good, judge.Minded: Fair, judge.Barred: Poor}[t]
}
