//! The words of fingerprints, one for each value of a byte.
//!
//! Chosen so that they survive a bad telephone line and a tired reader: plain words of three to
//! eight letters, no two alike in their first three letters, any two at least three letters apart.
//! The list must never change: a fingerprint written down last winter must still compare.

/// Word `n` stands for the byte `n`.
pub(super) const WORDS: [&str; 256] = [
    "acorn", "album", "anchor", "anvil", "apple", "aspen", "atlas", "attic", "badge", "bamboo", "banjo", "barley",
    "basin", "beacon", "beech", "berry", "biscuit", "blanket", "bonnet", "boot", "bottle", "branch", "bread", "brick",
    "brush", "bucket", "button", "cabbage", "cactus", "camera", "candle", "carpet", "cedar", "chalk", "cheese",
    "chimney", "cinema", "circle", "clay", "clock", "cobalt", "cocoa", "coffee", "comet", "corner", "crayon",
    "cricket", "crocus", "curtain", "cushion", "dahlia", "daisy", "desk", "diary", "dinner", "dolphin", "domino",
    "dough", "drum", "dune", "dynamo", "eagle", "easel", "echo", "eclipse", "ember", "emerald", "fabric", "falcon",
    "farm", "feather", "fence", "fiddle", "field", "fjord", "flame", "flint", "forest", "fossil", "galaxy", "garden",
    "gate", "gazebo", "geyser", "gift", "giraffe", "glass", "globe", "goggles", "gold", "gravel", "guitar", "hammer",
    "harbor", "helmet", "hiccup", "honey", "horizon", "husky", "iceberg", "igloo", "iguana", "indigo", "iris",
    "island", "jasmine", "jelly", "jewel", "jigsaw", "juice", "jumper", "jungle", "kayak", "kernel", "ketchup",
    "kimono", "kiosk", "kitchen", "koala", "lagoon", "lantern", "laurel", "lawn", "leaf", "legend", "lemon", "lentil",
    "lettuce", "library", "lilac", "limpet", "linen", "lizard", "lobster", "lotus", "lunch", "magnet", "mammoth",
    "marble", "meadow", "mirror", "mitten", "mosaic", "motor", "muffin", "museum", "napkin", "nectar", "needle",
    "nickel", "nozzle", "nugget", "nutmeg", "oatmeal", "obelisk", "ocean", "octopus", "olive", "onion", "orange",
    "orchard", "oregano", "ostrich", "otter", "pajama", "palace", "pancake", "paper", "parrot", "pasta", "pebble",
    "pelican", "petal", "piano", "picnic", "pigeon", "pillow", "plaster", "poplar", "potato", "pretzel", "pumpkin",
    "puppet", "purple", "quail", "rabbit", "raccoon", "radio", "rhubarb", "ribbon", "river", "robin", "ruby",
    "saffron", "salad", "sandal", "saucer", "scarf", "school", "seaweed", "shelf", "shirt", "shoe", "sketch",
    "skillet", "sleigh", "slipper", "sofa", "spade", "spiral", "spruce", "square", "stable", "stereo", "straw",
    "sugar", "swan", "sweater", "syrup", "teapot", "temple", "tennis", "thermos", "thimble", "thunder", "toast",
    "tower", "tractor", "tree", "trumpet", "tulip", "tunnel", "turbine", "twig", "ukulele", "utensil", "vacuum",
    "vanilla", "village", "vinegar", "violin", "volcano", "voyage", "waffle", "walnut", "wasp", "wheat", "whistle",
    "window", "wonder", "yacht", "yodel", "yogurt", "zebra", "zigzag", "zinc",
];
