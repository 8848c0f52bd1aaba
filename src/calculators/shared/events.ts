/** An event as a listener bound in a template gets it: currentTarget is the element it is bound on. */
export type EventOn<Target extends EventTarget> = Event & { readonly currentTarget: Target };
