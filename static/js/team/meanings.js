/** What each movement and each action means, one line each, for somebody who is about to choose it. */

/** @type {Readonly<Record<string, string>>} */
export const MOVEMENTS = Object.freeze({
  stay: "Does not move.",
  hold: "Waits in the corner for the kick-out.",
  cut: "Runs to the rim in front of his defender, then waits in the lane to choose.",
  back_cut: "Runs to the rim behind his defender, then waits in the lane to choose.",
  fill: "All who fill close up toward the ball, nearest first. Nobody passes anybody.",
  fill_one: "Moves one spot toward the ball if that spot is free.",
  exchange: "Passer and next player away from the ball change places off a screen.",
  replace: "Takes the spot that was just left.",
  rotate: "Moves one spot the way the drive goes; past the last corner, along the baseline to the other.",
  cover: "The nearest takes the driver’s old spot, the furthest fills the far corner if it is empty.",
  slide: "Runs along the baseline from one corner to the other.",
  lift: "Moves up from the corner to the spot next to it.",
  to_elbow: "A post, to the elbow on his side if it is open.",
  to_far_elbow: "A post, to the elbow on the other side if it is open.",
  to_short_corner: "A post, to the short corner on his side if it is open.",
  to_opposite_block: "A post, to the block on the other side if it is open.",
  re_post: "Stays at his own post, or comes back to it.",
  roll: "After the screen to the first open post, the blocks first.",
  pop: "After the screen out to an empty perimeter spot.",
  rebound: "Goes to the basket for the ball.",
  get_back: "Runs back so that nobody gets an easy one at the other end.",
});

/** @type {Readonly<Record<string, string>>} */
export const ACTIONS = Object.freeze({
  pass: "To the next team-mate along the perimeter.",
  skip: "Over a team-mate, to one further along.",
  post_entry: "From the perimeter to a team-mate on a post.",
  dribble_at: "Toward the next team-mate, to take his spot.",
  hand_off: "The next team-mate takes ball and spot.",
  dribble_to: "To an empty spot beside the ball.",
  back_cut: "A team-mate who is denied the pass cuts behind his defender.",
  drive: "To the basket, left or right.",
  ball_screen: "A post or the cutter screens, the ball goes off it left or right.",
  kick_out: "From inside back to the perimeter.",
  high_low: "From one post to the other.",
  dump_off: "From the driver to a team-mate on a post.",
  dribble_out: "From the lane out to an empty spot.",
  cutter_pass: "To the cutter while he waits in the lane.",
  hub_hand_off: "A team-mate comes off the elbow or high post with the ball, into the lane.",
  hub_back_cut: "A team-mate who is denied cuts behind while the ball is there.",
  face_up: "From the elbow or high post to the basket.",
  shot: "Ends the possession.",
  fill: "The cutter goes out to an empty perimeter spot.",
  post_up: "The cutter stays inside, on an open post.",
  back_screen: "The cutter screens for a perimeter team-mate, who cuts.",
  flash: "The cutter comes up to the elbow or high post, to the ball.",
  post_screen: "The cutter screens for a team-mate on a post, who cuts.",
  help_screen: "The cutter screens the help, so that the skip comes free.",
  follow: "The cutter comes back to the ball for a hand-off; the giver cuts.",
});

/**
 * Roles that several players can have at once, for the grammar of "each".
 * @type {ReadonlySet<string>}
 */
export const SEVERAL = new Set([
  "perimeter", "ball_side_posts", "weak_side_posts", "posts", "ahead", "behind", "deepest_two",
]);
