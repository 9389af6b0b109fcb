package words

import (
	"regexp"
	"slices"
	"sync"

	"haunchbook.example/app/language"
)

// spoken is the language of the window: one for the program, as its colors are.
var spoken struct {
	sync.Mutex
	in  language.Language
	own []string // the user's texts, which stay as they are
	say *language.Speaker
}

// Speak has the window speak a language.
func Speak(l language.Language) {
	spoken.Lock()
	defer spoken.Unlock()
	spoken.in = l
	spoken.say = l.Speaker(spoken.own)
}

// Spoken gives the language that the window speaks.
func Spoken() language.Language {
	spoken.Lock()
	defer spoken.Unlock()
	return spoken.in
}

// Own says which texts are the user's own. It is asked for them in other languages than
// English only, where they matter.
func Own(texts func() []string) {
	spoken.Lock()
	defer spoken.Unlock()
	if spoken.say == nil {
		return
	}
	if own := texts(); !slices.Equal(own, spoken.own) {
		spoken.own = own
		spoken.say = spoken.in.Speaker(own)
	}
}

// sign is what may stand before a text: that something is wrong, chosen, or one of many.
var sign = regexp.MustCompile(`^(?:[!●○·•…=]|\[.\]) +`)

// Say says a text of the window in its language. It is called once for each text, where
// that is put into a widget.
func Say(text string) string {
	spoken.Lock()
	defer spoken.Unlock()
	if spoken.say == nil {
		return text
	}
	n := len(sign.FindString(text))
	return text[:n] + spoken.say.Say(text[n:])
}

// Each says each of some texts.
func Each(texts []string) []string {
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = Say(t)
	}
	return out
}

// Unknown lists the keys that were asked for and that the language's file lacks.
func Unknown() []string {
	spoken.Lock()
	defer spoken.Unlock()
	return spoken.say.Unknown()
}
