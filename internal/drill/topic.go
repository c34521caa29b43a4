package drill

// Topic is what a problem is about.
type Topic string

// The topics.
const (
	Strong  Topic = "strong"  // water for a tank that is too strong
	Weak    Topic = "weak"    // salt for a tank that is too weak
	Reading Topic = "reading" // what a hydrometer means in cold or warm brine
	Heel    Topic = "heel"    // a batch on what is left in the tank
	Blend   Topic = "blend"   // what liquids become together
	Truck   Topic = "truck"   // what a truck may load
	Valves  Topic = "valves"  // what to open and to shut
)

// Topics lists all topics.
func Topics() []Topic { return []Topic{Strong, Weak, Reading, Heel, Blend, Truck, Valves} }

// sketcher draws the numbers of a problem once, and answers it.
type sketcher func(*draw) (sketch, error)

// sketcher returns what draws problems of the topic; nil for no topic of ours.
func (t Topic) sketcher() sketcher {
	switch t {
	case Strong:
		return strongTank
	case Weak:
		return weakTank
	case Reading:
		return readGlass
	case Heel:
		return batchOnHeel
	case Blend:
		return blendOf
	case Truck:
		return truckLoad
	case Valves:
		return valveSetting
	}
	return nil
}
