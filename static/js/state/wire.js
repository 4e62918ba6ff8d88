/**
 * The shapes that cross the wire, as types only: this module holds no code.
 *
 * Lengths are whole centimetres (origin on the floor under the basket's centre, x to the offence's right
 * facing the basket, y away from the baseline), times are seconds, players are numbers, spots are names.
 *
 * @typedef {[number, number]} Point  x, y in centimetres
 * @typedef {Record<string, number | string>} Params  p, m players; s a spot; d left or right
 * @typedef {[string, Params]} Phrase  key into a language's tables, and its parameters
 *
 * @typedef {object} Timeline  when everything of one step happens, seconds from the step's start
 * @property {number} ready  when the handler can begin the next action
 * @property {number} end  when the last runner has arrived
 * @property {[number | string, number, number, string, string][]} runs  player, start, duration, path data, style;
 *   in a scripted step also a defender x1 to x5 or the coach c
 * @property {[string, number, number, number, number, Point?][]} ball  pass|hand|shot, start, end, from, to (0: basket);
 *   in a scripted step also loose (from him to a place on the floor) and gather (picked up there)
 *
 * @typedef {object} Standing  who stands where
 * @property {Record<string, string>} at  player number to spot
 * @property {number} ball  player with the ball
 * @property {number | null} cutter  player in the lane who has not chosen yet
 * @property {boolean} over  a shot has ended the possession
 * @property {string} [freed]  spot of a mate whose defender has just been screened
 * @property {Point} [lies]  where the ball lies, after a scripted step that leaves it on the floor
 * @property {Record<string, Point>} [off]  where the five really are, after a scripted step that leaves them off spots
 *
 * @typedef {object} StepWire  one tap: an action, or a lane choice and the action after it
 * @property {string[]} a  text forms, one or two
 * @property {Phrase[]} say  one phrase an action
 * @property {[number, string, Params][]} who  one phrase a player
 * @property {Phrase} ball
 * @property {Timeline} tl
 * @property {Standing} after
 * @property {Record<string, Point>} [from]  scripted: where everybody stands when it begins, players, defenders x1 to
 *   x5, the coach c and cones k1 to k6
 * @property {number} [has]  scripted: who has the ball when it begins
 * @property {Point} [lies]  scripted: where it lies, if nobody has it
 *
 * @typedef {"disc" | "spot" | "post" | "shot" | "drive" | "dribble" | "hand" | "cut" | "screen"} Sign  disc: the mate himself is tapped
 * @typedef {"mate" | "spot" | "ball" | "basket" | "cutter" | "way"} Anchor  way: between who goes and where
 * @typedef {"" | "mate" | "spot" | "ball" | "basket" | "outside" | "side"} Toward
 * @typedef {object} OfferExtra
 * @property {string} act  kind of the last action
 * @property {number} by  player who acts
 * @property {number | null} to  mate it goes to
 * @property {string | null} spot
 * @property {"left" | "right" | null} d
 * @property {"lane" | "ball"} turn  a lane choice, or an action with the ball
 * @property {number} place  of its kind in the list
 * @property {[Sign, Anchor, Toward]} mark  on the court: by which sign, where, and which way it points
 * @property {boolean} [default]  the lane choice that is taken when the coach goes straight on
 * @typedef {StepWire & OfferExtra} Offer  a step that may be tapped, its paths already in place
 *
 * @typedef {object} Mark
 * @property {string} kind
 * @property {string} d  path data in centimetres
 * @property {boolean} [dashed]
 * @property {boolean} [fill]
 * @typedef {object} Floor
 * @property {string} court
 * @property {[number, number, number, number]} box  x0, y0, x1, y1 of the half court
 * @property {Mark[]} marks
 * @property {Record<string, Point>} spots
 * @property {string[]} ring
 * @property {string[]} [lane]  spots where nobody stays; left out by what was kept before there were four of them
 * @property {Point} basket
 *
 * @typedef {object} Earlier  a chain that was on the board
 * @property {string} chain
 * @property {string} name  in the playbook, "" if it is not there
 * @property {string} formation
 * @property {string} rules
 * @property {string[][]} line  its steps
 * @property {number} depth  so many of them played
 * @property {number} at  when it was left, seconds since 1970
 * @property {string} to  the chain that replaced it, where undo leads back here; else ""
 *
 * @typedef {object} Board
 * @property {string} id
 * @property {string} name
 * @property {string} team
 * @property {string} formation  what ships by its name, the team's own by its ref with version
 * @property {string} formation_name
 * @property {string} court
 * @property {number} level
 * @property {string} rules  as formation
 * @property {string} rules_title
 * @property {number | null} stage  how far the rules have been taught, null: all of them
 * @property {string[]} stages  titles
 *
 * @typedef {{id: string, number: string, name?: string}} Member  of the squad; coaches alone are told names
 * @typedef {Record<string, Member | null>} Squad  who plays which of the five places
 * @typedef {Record<string, {call?: string, signal?: string}>} Calls  the team's own words, by kind of action
 * @typedef {{id: string, name: string, kept: boolean}} Chain  kept: in the playbook
 * @typedef {{act: string, a: string, p: number}} Withheld  what player p may not do yet
 *
 * @typedef {{formations: string[], courts: string[], levels: number[]}} Choices
 *
 * @typedef {object} StateMessage
 * @property {"state"} t
 * @property {number} seq
 * @property {string | null} [id]  of the change it answers
 * @property {"coach" | "viewer"} role
 * @property {Board} board
 * @property {Floor} floor
 * @property {number} first  index of the first step given
 * @property {Standing} start  the position before it
 * @property {StepWire[]} steps
 * @property {number} ahead  how many undone steps can be redone
 * @property {StepWire[]} [undone]  coaches only: those steps, the next one first
 * @property {number} viewers
 * @property {Choices} choices
 * @property {Squad} squad
 * @property {Calls} calls
 * @property {Member[]} bench  who of the squad is on none of the five places
 * @property {number} at  when the board last changed, seconds since 1970
 * @property {string | null} [notice]  coaches only: what could not be brought back, as a key of the texts
 * @property {Chain} [chain]  coaches only: which chain is played
 * @property {string | null} [change]  coaches only: id of the last change
 * @property {boolean} [arrived]  coaches only: the last change put this chain on the board
 * @property {Earlier[]} [earlier]  coaches only: the chains that gave way to others here, the last first
 * @property {Record<string, import("../pack/offers.js").Licence>} [licences]  coaches only: of players who are limited
 * @property {string[] | null} [installed]  coaches only: kinds of actions taught so far, null: all
 *
 * @typedef {object} OffersMessage
 * @property {"offers"} t
 * @property {number} seq
 * @property {number} [at]  after how many steps; left out: at the end of the chain
 * @property {string[]} routes
 * @property {any[]} offers
 * @property {Withheld[]} withheld
 * @property {import("../board/chain.js").Fork[]} [forks]  left out of what is about an earlier step
 * @typedef {{t: "step", seq: number, id: string | null, depth: number, step: StepWire, ahead: number}} StepMessage
 * @typedef {{t: "back", seq: number, id: string | null, depth: number, ahead: number}} BackMessage
 * @typedef {{t: "refused", id: string | null, code: string, message: string}} RefusedMessage
 * @typedef {StateMessage | OffersMessage | StepMessage | BackMessage | RefusedMessage
 *   | {t: "kept", id: string, legal: number, of: number, why: string | null} | {t: "viewers", n: number} | {t: "gone", code: string, message: string} | {t: "pong"}
 *   | import("../board/showing.js").Shown} Message
 */

export {};
