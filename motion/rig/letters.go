package rig

import (
	"strings"

	"seamrail/motion/source"
)

// The letters that RS-274/NGC has for axes, the usual ones first (Kramer,
// Proctor and Messina, The NIST RS274NGC Interpreter, version 3, 2000, and the
// U V W of its successors; from memory).
const (
	linearLetters = "XYZUVW"
	rotaryLetters = "ABC"
)

// letters reads every axis' letter and gives one to those that have none.
func (raw Raw) letters(report *source.Report, prefix string, axes []Axis) {
	owner := map[string]string{}
	for i := range axes {
		t, path := raw.Axis[axes[i].Name].Letter, prefix+"axis."+axes[i].Name+".letter"
		if !t.Set {
			continue
		}
		letter := strings.ToUpper(t.Text)
		switch {
		case len(letter) != 1 || !strings.Contains(linearLetters+rotaryLetters, letter):
			report.Wrong(t, path, "must be one of X, Y, Z, U, V, W, A, B, C", "")
			continue
		case owner[letter] != "":
			report.Wrong(t, path, "is the letter of "+owner[letter]+" already", "free: "+freeLetters(axes[i].Kind, owner))
		}
		axes[i].Letter, owner[letter] = letter, axes[i].Name
	}
	for i := range axes {
		if !raw.Axis[axes[i].Name].Letter.Set {
			giveLetter(report, raw.Axis[axes[i].Name].Place, prefix, &axes[i], owner)
		}
	}
}

func giveLetter(report *source.Report, at source.Place, prefix string, a *Axis, owner map[string]string) {
	path := prefix + "axis." + a.Name + ".letter"
	free := freeLetters(a.Kind, owner)
	if free == "" {
		report.Add(at, path, "", "has none left to take", "a rig has at most six linear and three rotary axes")
		return
	}
	a.Letter = free[:1]
	owner[a.Letter] = a.Name
	report.Default(path, a.Letter, "the first free letter of a "+a.Kind.String()+" axis")
}

// freeLetters lists the letters of a kind that no axis has: "Y, Z".
func freeLetters(k Kind, owner map[string]string) string {
	all := linearLetters
	if k == Rotary {
		all = rotaryLetters
	}
	var free []string
	for _, c := range all {
		if owner[string(c)] == "" {
			free = append(free, string(c))
		}
	}
	return strings.Join(free, ", ")
}
