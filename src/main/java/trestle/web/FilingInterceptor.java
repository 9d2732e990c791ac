package trestle.web;

import jakarta.annotation.Priority;
import jakarta.inject.Inject;
import jakarta.interceptor.AroundInvoke;
import jakarta.interceptor.Interceptor;
import jakarta.interceptor.InvocationContext;

@Filing
@Interceptor
@Priority(Interceptor.Priority.PLATFORM_BEFORE + 200)
class FilingInterceptor {
  @Inject Walls walls;

  @AroundInvoke
  Object within(InvocationContext call) throws Exception {
    return walls.filing(Walls.viewerOf(call), call::proceed);
  }
}
