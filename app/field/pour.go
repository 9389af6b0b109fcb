package field

import "fmt"

var pourRows = rows("pour",
	part("", "Pour", "The day of the pour.").rule(hoursInOrder),
	choice("weathering", "Weathering", "Region of the site, after the map of IRC Table R301.2(1).", "unstated: not stated", "negligible", "moderate", "severe"),
	choice("use", "Use of the slab", "Garage, carport or porch; or an interior floor (IRC Table R402.2).", "garage: garage, carport, porch", "interior: interior floor"),
	choice("finish", "Finish", "How the top is finished. A trowel does not go with more than 3 % air (ACI 302.1R).", "unstated: not stated", "broom", "float", "trowel", "burnished"),
	row(Time, "start", "First truck at", "When the first truck is to be on site.").is("07:00", practice),
	row(Date, "date", "Day of the pour", "When the concrete is to be placed: what holds the pour back is held against it, and the calendar has it.").blank("not set"),
	point("stations[]", "Place for a truck", "Where a truck or pump may stand.").items(0, 20),
)

var weatherRows = rows("pour.weather[]",
	list("", "weather hour", "The forecast, hour by hour as it is known.").items(0, 48).named("time").rule(dampness),
	row(Time, "time", "Hour", "Of the day, in order."),
	row(Temperature, "air", "Air", "Temperature of the air.").needed(),
	row(Temperature, "concrete", "Concrete", "Temperature as it leaves the truck.").needed(),
	percent("humidity", "Humidity", "Relative.").from(0, 100),
	row(Temperature, "dew", "Dew point", "Instead of the humidity.").blank("not given"),
	row(Speed, "wind", "Wind", "About 20 in above the slab.").blank("calm"),
)

var forecastRows = rows("pour.forecast[]",
	list("", "forecast day", "What is expected of the day of the pour and of those after it.").items(0, 60).named("date"),
	row(Date, "date", "Day", "Of the forecast.").needed(),
	row(Temperature, "low", "Least", "Of the air, that day and its night.").blank("not given"),
	percent("rain", "Rain", "How likely it is.").from(0, 100).zero("none"),
)

// hoursInOrder asks that each hour is later than the one before.
func hoursInOrder(w View) {
	var before View
	for i, h := range w.items("weather") {
		if i > 0 && h.number("time") <= before.number("time") {
			h.fault("time", h.say("time"), "must be later than the hour before it, "+before.say("time"))
		}
		before = h
	}
}

// dampness asks for a humidity or a dew point that goes with the air.
func dampness(w View) {
	humidity, dew := w.number("humidity"), w.text("dew")
	switch {
	case !(humidity >= 0 && humidity <= 100):
	case humidity == 0 && dew == "":
		w.fault("humidity", "nothing", "give the relative humidity in percent, or a dew point")
	case humidity > 0 && dew != "":
		w.fault("dew", dew, "give either the humidity or a dew point, not both")
	case dew != "" && w.text("air") != "" && celsius(w.value("dew")) > celsius(w.value("air")):
		w.fault("dew", dew, fmt.Sprintf("a dew point is not above the air's temperature, %s", w.text("air")))
	}
}

func celsius(t any) float64 { return t.(interface{ C() float64 }).C() }

var crewRows = rows("pour.crew",
	part("", "Crew", "Who places the concrete."),
	count("people", "People", "Who place and finish; five place about 11 yd³ in half an hour.").
		is(5, practice).inSI(5, "Who place and finish; five place about 8 m³ in half an hour.").from(1, 100).trade(2, 20, practice),
	row(Rate, "rate", "Rate", "Placed in an hour by this crew.").from(0.1, 10000).trade(3, 60, practice).zero("by the number of people"),
)

var truckRows = rows("pour.trucks",
	part("", "Trucks", "How the concrete comes."),
	minutes("travel", "Drive", "From the plant to the site.").is(25, practice).from(0, 24*60).trade(5, 90, practice),
	minutes("loading", "Loading", "At the plant.").is(10, practice).from(0, 24*60).trade(3, 30, practice),
	minutes("setup", "Setting up", "From arrival, or from the truck before, until a truck discharges.").is(5, practice).from(0, 24*60).trade(0, 30, practice),
	count("fleet", "Trucks in turn", "How many go back and forth.").from(0, 100).trade(1, 20, practice).zero("one for each load"),
	minutes("limit", "Empty within", "From batching to the end of discharge, as you or the plant set it; it stands on the ticket.").
		is(90, practice+"; ASTM C94/C94M-21 leaves it to the purchaser, else the producer").from(1, 24*60).trade(45, 180, practice),
	row(Temperature, "temperature", "Temperature asked", "Of the concrete on arrival; in the 60s °F is preferred.").blank("not asked"),
)

var reachRows = rows("pour.reach",
	part("", "Reach", "How far tools go."),
	choice("method", "Placed by", "How concrete gets from the truck to its place.", "chute: chute, straight off the truck", "pump", "buggy: buggy or wheelbarrow"),
	feet("chute", "Chute or hose", "How far the chute, boom or hose reaches.").is(16*foot, practice).from(0, far).trade(8*foot, 200*foot, practice),
	feet("rake", "Raked on by", "How far concrete is raked beyond the end of the chute; moved farther, it segregates.").
		is(4*foot, practice).from(0, 20*foot).trade(0, 8*foot, practice).when("method", "chute"),
	feet("straightedge", "Straightedge", "Its length; 10 to 16 ft.").is(14*foot, practice).from(foot, 30*foot).trade(6*foot, 24*foot, practice),
	inches("overlap", "Its overlap", "On pads and forms, both ends together; about 12 in.").
		is(12*inch, practice).from(0, far).trade(4*inch, 3*foot, practice).atMost("straightedge", -6*inch),
	feet("float", "Bull float", "How far it reaches from one side with its handle.").is(18*foot, practice).from(0, far).trade(8*foot, 30*foot, practice).zero("any width"),
	feet("bay", "Longest bay", "Along a lane.").is(12*foot, practice).from(0, far).trade(4*foot, 40*foot, practice).zero("whole lanes"),
	degrees("turn", "Lanes at", "Direction of the lanes from the X axis.").when("turned"),
	check("turned", "Lanes turned", "Lanes run in the direction given, not in that with the fewest of them."),
)
