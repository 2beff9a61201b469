import {
  keepClaim,
  regained,
  whole
} from "./shared-2.js";
export {
  keepClaim,
  regained,
  whole
};
