package trestle.web;

import jakarta.annotation.Priority;
import jakarta.inject.Inject;
import jakarta.interceptor.AroundInvoke;
import jakarta.interceptor.Interceptor;
import jakarta.interceptor.InvocationContext;

@Reading
@Interceptor
@Priority(Interceptor.Priority.PLATFORM_BEFORE + 200)
class ReadingInterceptor {
  @Inject Walls walls;

  @AroundInvoke
  Object within(InvocationContext call) throws Exception {
    return walls.reading(Walls.viewerOf(call), call::proceed);
  }
}
