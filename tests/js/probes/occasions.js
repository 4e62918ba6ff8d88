/** The occasions that a device knows, in its order, "" for none in particular first. */

import { OCCASIONS } from "../../../static/js/plays/bench-row.js";

export default () => OCCASIONS;
