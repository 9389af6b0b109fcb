package language_test

import (
	"fmt"

	"haunchbook.example/app/language"
)

// What varies is taken out of a text, and stands as it was in what is said of it.
func ExampleSpeaker_Say() {
	l, err := language.Read([]byte(`{"code": "es", "name": "Español", "locale": "es-US", "texts": {
		"{1} in the old slab, {2} deep": "{1} en la losa existente, a {2} de hondo",
		"of {1}": "de {1}"}}`))
	if err != nil {
		fmt.Println(err)
		return
	}
	say := l.Speaker([]string{"Garage"})
	fmt.Println(say.Say(`8" in the old slab, 3 1/2" deep`))
	fmt.Println(say.Say("of Garage"))
	fmt.Println(say.Say("Garage"))
	fmt.Println(say.Say("Nobody knows this"), say.Unknown())
	// Output:
	// 8" en la losa existente, a 3 1/2" de hondo
	// de Garage
	// Garage
	// Nobody knows this [Nobody knows this]
}
