package rig

import (
	"strings"

	"seamrail/motion/base/source"
)

// The letters that RS-274/NGC has for axes, the usual ones first (NISTIR 6556,
// and the U V W of its successors).
const (
	linearLetters = "XYZUVW"
	rotaryLetters = "ABC"
)

// letters reads every axis' letter and gives one to those that have none.
func (raw Raw) letters(report *source.Report, prefix string, c Controller, axes []Axis) {
	owner := map[string]string{}
	for i := range axes {
		t, path := raw.Axis[axes[i].Name].Letter, prefix+source.Join("axis", axes[i].Name)+".letter"
		if !t.Set {
			continue
		}
		letter := strings.ToUpper(t.Text)
		switch {
		case len(letter) != 1 || !strings.Contains(linearLetters+rotaryLetters, letter):
			report.Wrong(t, path, "must be one of X, Y, Z, U, V, W, A, B, C", "")
			continue
		case !c.has(letter):
			report.Wrong(t, path, "must be one of those the controller has, "+c.Letters, "free: "+c.freeLetters(axes[i].Kind, owner))
			continue
		case owner[letter] != "":
			report.Wrong(t, path, "is the letter of "+owner[letter]+" already", "free: "+c.freeLetters(axes[i].Kind, owner))
		}
		axes[i].Letter, owner[letter] = letter, axes[i].Name
	}
	for i := range axes {
		if !raw.Axis[axes[i].Name].Letter.Set {
			giveLetter(report, raw.Axis[axes[i].Name].Place, prefix, c, &axes[i], owner)
		}
	}
}

func giveLetter(report *source.Report, at source.Place, prefix string, c Controller, a *Axis, owner map[string]string) {
	path := prefix + source.Join("axis", a.Name) + ".letter"
	free := c.freeLetters(a.Kind, owner)
	if free == "" {
		report.Add(at, path, "", "has none left to take", c.mostAxes())
		return
	}
	a.Letter = free[:1]
	owner[a.Letter] = a.Name
	report.Default(path, a.Letter, "the first free letter of a "+a.Kind.String()+" axis")
}

// has tells whether it has a letter, as far as the rig file says.
func (c Controller) has(letter string) bool {
	return c.Letters == "" || strings.Contains(c.Letters, letter)
}

func (c Controller) mostAxes() string {
	if c.Letters != "" {
		return "the controller has " + c.Letters + " alone"
	}
	return "a rig has at most six linear and three rotary axes"
}

// freeLetters lists the letters of a kind that no axis has: "Y, Z". A controller
// that has none of the rotary ones turns a table with one of the others, where
// degrees count as millimetres.
func (c Controller) freeLetters(k Kind, owner map[string]string) string {
	all := linearLetters
	if k == Rotary {
		all = rotaryLetters
		if c.Letters != "" && !strings.ContainsAny(c.Letters, rotaryLetters) {
			all = linearLetters
		}
	}
	var free []string
	for _, l := range all {
		if owner[string(l)] == "" && c.has(string(l)) {
			free = append(free, string(l))
		}
	}
	return strings.Join(free, ", ")
}

// DoubtfulLetter tells whether a controller of the kind may well not have an
// axis' letter: a plain buffered one has X, Y and Z, and the rig file does not
// say that this one has more.
func (c Controller) DoubtfulLetter(a Axis) bool {
	return c.Kind.Counted() && c.Letters == "" && a.Letter != "" && !strings.Contains(plainLetters, a.Letter)
}

// plainLetters are those of a board with three axes, the commonest.
const plainLetters = "XYZ"
